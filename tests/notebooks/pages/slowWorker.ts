/** Stands in for the browser's Worker, and answers when it is told to. */
export class SlowWorker<Request, Answer> extends EventTarget {
  readonly asked: Request[] = [];
  isEnded = false;
  postMessage(request: Request): void {
    this.asked.push(request);
  }
  terminate(): void {
    this.isEnded = true;
  }
  answer(answer: Answer): void {
    this.dispatchEvent(new MessageEvent("message", { data: answer }));
  }
}
