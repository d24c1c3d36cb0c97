/** A wrong command line. Thrown so that no command runs on it. */
export class UsageError extends Error {}
