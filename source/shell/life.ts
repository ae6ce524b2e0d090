const hangUps = {SIGHUP: 1, SIGINT: 2, SIGTERM: 15} as const;

/**
 * Calls `end` once when the program is asked to end from outside or its
 * terminal goes away. The exit code is the one that shells use for signals.
 *
 * @returns Stops listening.
 */
export function onHangUp(stdout: NodeJS.WriteStream, end: (exitCode: number) => void): () => void {
	let isOver = false;
	const over = (code: number) => {
		if (isOver) return;
		isOver = true;
		end(code);
	};
	const handlers = Object.entries(hangUps).map(
		([name, number]) => [name as NodeJS.Signals, () => over(128 + number)] as const,
	);
	for (const [name, handler] of handlers) process.on(name, handler);
	// A file that may not grow is a full disk: the save says so. Without a listener Ink would end the program for it.
	process.on('SIGXFSZ', ignore);
	// A terminal that was closed cannot be written to any more; nobody is left to tell.
	const gone = () => over(128 + hangUps.SIGHUP);
	stdout.on('error', gone);
	return () => {
		for (const [name, handler] of handlers) process.off(name, handler);
		process.off('SIGXFSZ', ignore);
		// Whatever is still written to a closed terminal must not throw: the listener stays, deaf.
		isOver = true;
	};
}

function ignore(): void {}

/**
 * Calls `end` once with what was thrown where nobody caught it: in a timer, a
 * stream, a promise. Without this the terminal would stay as the screen had it.
 *
 * @returns Stops listening.
 */
export function onFault(end: (error: unknown) => void): () => void {
	let isOver = false;
	const over = (error: unknown) => {
		if (isOver) return;
		isOver = true;
		end(error);
	};
	process.on('uncaughtException', over);
	process.on('unhandledRejection', over);
	return () => {
		process.off('uncaughtException', over);
		process.off('unhandledRejection', over);
	};
}

/**
 * Stops this program and all of its group, as Ctrl-Z does: under `npm start`
 * the shell waits for npm, which has to stop as well. Resolves when it goes
 * on; at once where nothing can be stopped, because no shell waits.
 */
export async function stopGroup(): Promise<void> {
	if (process.platform === 'win32') return;
	await new Promise<void>(resolve => {
		const timer = setTimeout(resolve, 100);
		process.once('SIGCONT', () => {
			clearTimeout(timer);
			resolve();
		});
		process.kill(0, 'SIGTSTP');
	});
}
