import {parentPort} from 'node:worker_threads';
import type {Listening} from '../../listening/listening.ts';
import type {DeskTask} from './desk.ts';
import {deskAfter} from './desk-work.ts';

/** The listening desk in a thread of its own: keys are answered while it is at work. */
let listening: Listening | undefined;
parentPort?.on('message', (task: DeskTask) => {
	const after = deskAfter(listening, task);
	listening = after.listening;
	if (after.reply) parentPort?.postMessage(after.reply);
});
