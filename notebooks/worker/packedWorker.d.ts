/** What `build/inlineWorker` makes of the worker: its program, compressed, as base64. */
declare module "virtual:packed-worker" {
  const packed: string;
  export default packed;
}
