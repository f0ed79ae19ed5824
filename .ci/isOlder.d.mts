export function isOlder(built: string): boolean;
