/** What `build/publishedChecks` makes of the last run of the tests: a text of the guide. */
declare module "virtual:published-checks" {
  const text: string;
  export default text;
}
