const never = new Int32Array(new SharedArrayBuffer(4));

/** Waits without burning the processor. Storing is synchronous on purpose: a fact is stored before the screen moves on. */
export function pause(milliseconds: number): void {
	Atomics.wait(never, 0, 0, milliseconds);
}
