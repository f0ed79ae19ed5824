export const publishedChecksFile: string;
export function checkedSources(): string;
export function publishedChecks(list?: string): string;
