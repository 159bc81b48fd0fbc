export function Papers() { return null; }
