/** Connections of the server: shared fairly while it runs, and seen to their end when it stops. */
import type { IncomingMessage, Server, ServerResponse } from "node:http";
import { Server as Listener, type Socket } from "node:net";

/** How long open connections may bring a last request after the stop, and how long the slowest answer is waited for, in ms. */
const [LAST_CALL, LONGEST_END] = [2_000, 15_000];
/** How long connections are still accepted after the stop, each for one request. */
const LAST_ACCEPT = 200;
const LOOKS_AGAIN = 50;

type Connections = {
  /** Takes no new connection, answers every request that was sent, and resolves when the last one is answered. */
  end(): Promise<void>;
};

/**
 * Keeps the server's connections at `most`. When they are full, the address with most of them loses the one that has
 * been idle for longest: whoever holds many makes room for whoever comes, and no address can shut the others out.
 */
export function share(server: Server, most: number): Connections {
  /** Open connections, the one used last at the end. */
  const open = new Set<Socket>();
  const busy = new Map<Socket, number>();
  const addresses = new WeakMap<Socket, string>();
  let ending = false;
  const addressOf = (socket: Socket) => addresses.get(socket) ?? "";

  const makeRoom = (): void => {
    const counts = new Map<string, number>();
    for (const socket of open) counts.set(addressOf(socket), (counts.get(addressOf(socket)) ?? 0) + 1);
    const idle = [...open].filter((socket) => !busy.has(socket));
    const held = (socket: Socket) => counts.get(addressOf(socket))!;
    const [first, ...rest] = idle;
    if (first === undefined) return;
    const loser = rest.reduce((loser, socket) => held(socket) > held(loser) ? socket : loser, first);
    open.delete(loser);
    // A socket that is destroyed in the turn it was accepted in would never close.
    setTimeout(() => loser.destroy(), 0);
  };

  server.on("connection", (socket: Socket) => {
    addresses.set(socket, socket.remoteAddress ?? "");
    open.add(socket);
    socket.once("close", () => {
      open.delete(socket);
      busy.delete(socket);
    });
    if (open.size > most) makeRoom();
  });
  server.on("request", (request: IncomingMessage, response: ServerResponse) => {
    const { socket } = request;
    busy.set(socket, (busy.get(socket) ?? 0) + 1);
    response.once("close", () => {
      const left = (busy.get(socket) ?? 1) - 1;
      if (left > 0) busy.set(socket, left);
      else busy.delete(socket);
      // Used last, so asked last to make room.
      if (open.delete(socket)) open.add(socket);
    });
    if (ending) response.setHeader("Connection", "close");
  });

  return {
    end() {
      ending = true;
      const began = Date.now();
      let listens = true;
      return new Promise((done) => {
        const look = () => {
          const waited = Date.now() - began;
          // Connections that the system has taken and nobody has accepted yet would be cut with the listener.
          if (listens && waited > LAST_ACCEPT) {
            listens = false;
            // The way of an HTTP server would cut connections that look idle while a request is on its way to them.
            Listener.prototype.close.call(server);
          }
          if (waited > LAST_CALL) { for (const socket of open) if (!busy.has(socket)) socket.destroy(); }
          if ((listens || open.size > 0) && waited < LONGEST_END) return void setTimeout(look, LOOKS_AGAIN);
          done();
        };
        look();
      });
    },
  };
}
