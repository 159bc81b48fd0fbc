export function Show() { return null; }
