import {fstatSync} from 'node:fs';
import type {Readable} from 'node:stream';
import {fileURLToPath} from 'node:url';
import {Worker} from 'node:worker_threads';
import {openStandardInput, openWavFile} from '../../listening/sources/byte-stream.ts';
import {openRecorder} from '../../listening/sources/recorder.ts';
import type {SoundListener, SoundSource} from '../../listening/sources/sound-source.ts';
import type {DeskReply, OpenDesk} from './desk.ts';
import type {Ears} from './ears.ts';
import {earsAtDesk} from './ears-at-desk.ts';
import type {HearChoice} from './hear-choice.ts';
import {reopened} from './reopened.ts';

/**
 * This machine's ears. Nothing is opened before somebody listens.
 *
 * @param asked What the command line says; without it a key starts live sound.
 */
export function realEars(asked: HearChoice | undefined, stdin: Readable & {readonly fd?: number}): Ears {
	const choice: HearChoice = asked ?? {kind: 'live'};
	const isRecording = choice.kind === 'recording' || (choice.kind === 'piped' && isFile(stdin.fd));
	const open = (listener: SoundListener) => openSource(choice, stdin, listener);
	return earsAtDesk({
		startsOn: asked !== undefined,
		hasEnd: choice.kind !== 'live',
		isRecording,
		openDesk: openDeskInThread,
		openSource: choice.kind === 'piped' ? reopened(open, {isRecording}) : open,
	});
}

function openSource(choice: HearChoice, stdin: Readable, listener: SoundListener): SoundSource {
	switch (choice.kind) {
		case 'recording':
			return openWavFile(choice.file, listener);
		case 'piped':
			// What is still to come must not keep the program alive once it is left.
			(stdin as {unref?: () => void}).unref?.();
			return openStandardInput(stdin, choice.rawRateHz, listener);
		case 'live': {
			const {program: only, device} = choice;
			return openRecorder(
				{
					platform: process.platform,
					environment: process.env,
					...(only && {only}),
					...(device !== undefined && {device}),
				},
				listener,
			);
		}
	}
}

/** `< take.wav` is a recording, which can wait; a pipe is live. */
function isFile(fd: number | undefined): boolean {
	try {
		return fd !== undefined && fstatSync(fd).isFile();
	} catch {
		return false;
	}
}

/** Beside the program once built; not a literal, so that it stays a file of its own. */
const threadFile = fileURLToPath(new URL(['.', 'desk-thread.js'].join('/'), import.meta.url));

const openDeskInThread: OpenDesk = reply => {
	const thread = new Worker(threadFile);
	let isStopped = false;
	thread.on('message', (message: DeskReply) => {
		if (!isStopped) reply(message);
	});
	thread.on('error', error => {
		// Thrown where the wizard's own faults are: it cannot be mended by typing.
		if (!isStopped) throw error;
	});
	return {
		post: task => thread.postMessage(task),
		stop() {
			isStopped = true;
			void thread.terminate();
		},
	};
};
