/** Where a card stands, and how its forms and links ask on from it. */
export type Place = {
  /** The address that forms and links lead to. */
  action: "/answer" | "/embed";
  /** What a shared link starts with; `""` when unknown. */
  origin: string;
  edition: string;
  /** Stands before every id, so that several answers have room on one page. */
  id: string;
  /** The texts of the conversation so far, which the next one goes on from. */
  after: readonly string[];
};

/** The link that asks `question` here, going on from `after`. */
export function asking({ action, edition }: Place, question: string, after: readonly string[] = []): string {
  const query = new URLSearchParams({ q: question, edition });
  for (const text of after) query.append("after", text);
  return `${action}?${query}`;
}

/** Inside a frame, what is no answer opens outside of it. */
export const target = ({ action }: Place): string | undefined => action === "/embed" ? "_blank" : undefined;
