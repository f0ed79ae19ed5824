// What touches of a lobed wall take it for.

export { type LobingEffect, lobingEffect } from "./lobing.ts";
