import {hear, hearEnd, hearNow, loseSamples} from '../../listening/hear.ts';
import {type Heard, type HearingHints, type Listening, startListening} from '../../listening/listening.ts';
import {viewOf} from '../../listening/listening-view.ts';
import type {DeskReply, DeskTask, OpenDesk} from './desk.ts';

/** One task of the listening desk done. */
export function deskAfter(
	listening: Listening | undefined,
	task: DeskTask,
): {readonly listening: Listening | undefined; readonly reply?: DeskReply} {
	if (task.kind === 'start') return {listening: startListening(task.sampleRateHz)};
	if (!listening) return {listening};
	switch (task.kind) {
		case 'block':
			return told(hear(listening, task.samples, hintsOf(task)));
		case 'lost':
			return {listening: loseSamples(listening)};
		case 'now': {
			const tone = hearNow(listening, hintsOf(task));
			return {listening, reply: {kind: 'now', ...(tone && {tone})}};
		}

		case 'end':
			return told(hearEnd(listening, hintsOf(task)));
	}
}

/** The hints alone: the rest of a task would pass for more of them. */
function hintsOf({believedHz}: {readonly believedHz: readonly number[]}): HearingHints {
	return {believedHz};
}

function told({listening, plucks}: Heard) {
	return {listening, reply: {kind: 'heard', plucks, view: viewOf(listening)}} as const;
}

/** A desk in this thread, for tests. */
export const openDeskHere: OpenDesk = reply => {
	let listening: Listening | undefined;
	let isStopped = false;
	return {
		post(task) {
			queueMicrotask(() => {
				if (isStopped) return;
				const after = deskAfter(listening, task);
				listening = after.listening;
				if (after.reply) reply(after.reply);
			});
		},
		stop() {
			isStopped = true;
		},
	};
};
