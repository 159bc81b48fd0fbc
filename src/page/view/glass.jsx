export function Glass() { return null; }
