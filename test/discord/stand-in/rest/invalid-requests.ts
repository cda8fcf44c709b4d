/** An address with 10,000 of them in 10 minutes is shut out ("Invalid Request Limit"). */
const WINDOW_MS = 600_000;

export type InvalidRequests = {
  /** Takes note of an answer: 401, 403 and 429 count, but for a shared limit's 429. */
  note(status: number, shared: boolean): void;
  /** In the last ten minutes. */
  count(): number;
  banned(): boolean;
};

export function createInvalidRequests(now: () => number, limit: number): InvalidRequests {
  let at: number[] = [];
  const recent = (): number => {
    at = at.filter((one) => now() - one < WINDOW_MS);
    return at.length;
  };
  return {
    note(status, shared) {
      if (status === 401 || status === 403 || (status === 429 && !shared)) at.push(now());
    },
    count: recent,
    banned: () => recent() >= limit,
  };
}
