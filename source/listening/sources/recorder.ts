import {spawn, spawnSync} from 'node:child_process';
import {type Trouble, troubleOf} from '../trouble.ts';
import {startByteSound, takeBytes} from './byte-sound.ts';
import {onPath} from './on-path.ts';
import {
	complaintIn,
	directShowInputs,
	listDirectShow,
	type Platform,
	platforms,
	type RecorderName,
	recorderCommand,
	recordersFor,
	tellsOfLoss,
} from './recorders.ts';
import type {SoundListener, SoundSource} from './sound-source.ts';

export interface RecorderOptions {
	readonly platform: string;
	readonly environment: Readonly<Record<string, string | undefined>>;
	/** Default 48000, what most sound inputs run at. */
	readonly sampleRateHz?: number;
	/** Input as the recorder knows it; default the system's. */
	readonly device?: string;
	/** Use this recorder alone. */
	readonly only?: RecorderName;
	/** Without a sample for this long something is wrong, ms; default 4000. */
	readonly patienceMs?: number;
}

/** Recorders that this machine has, best first. */
export function foundRecorders({
	platform,
	environment,
	only,
}: Pick<RecorderOptions, 'platform' | 'environment' | 'only'>): readonly RecorderName[] {
	if (!isKnown(platform)) return [];
	return recordersFor(platform).filter(
		name => (only === undefined || only === name) && onPath(name, environment, platform),
	);
}

function isKnown(platform: string): platform is Platform {
	return (platforms as readonly string[]).includes(platform);
}

/**
 * Live sound through a program that the machine already has. Starts the best
 * one; if it ends before the first sample, the next is tried; if all do, the
 * complaint that says most is told.
 */
export function openRecorder(options: RecorderOptions, listener: SoundListener): SoundSource {
	const {platform, environment, only, sampleRateHz = 48_000, patienceMs = 4000} = options;
	const candidates = [...foundRecorders(options)];
	const complaints: Trouble[] = [];
	let isStopped = false;
	let stopCurrent = () => {};

	const giveUp = (trouble: Trouble) => {
		if (isStopped) return;
		isStopped = true;
		listener({kind: 'trouble', trouble});
	};
	const tryNext = () => {
		const name = candidates.shift();
		if (isStopped) return;
		if (name === undefined) return giveUp(worthTelling(complaints));
		stopCurrent = run(name);
	};
	const run = (name: RecorderName): (() => void) => {
		const device = options.device ?? defaultInput(name, platform, environment);
		const {args} = recorderCommand(name, platform as Platform, sampleRateHz, device);
		const child = spawn(onPath(name, environment, platform) ?? name, args, {
			stdio: ['ignore', 'pipe', 'pipe'],
			env: environment,
		});
		let sound = startByteSound(sampleRateHz);
		let isOpen = false;
		let isOver = false;
		let words = '';
		const patience = setTimeout(() => over(troubleOf('nothing-arrives', name)), patienceMs);
		const over = (trouble: Trouble) => {
			if (isOver) return;
			isOver = true;
			clearTimeout(patience);
			child.kill();
			if (isOpen) return giveUp(trouble);
			complaints.push(trouble);
			tryNext();
		};
		child.stdout.on('data', (chunk: Buffer) => {
			if (isOver || isStopped) return;
			const taken = takeBytes(sound, chunk);
			sound = taken.sound;
			if (sound.kind === 'not-sound') return over(troubleOf('stopped', name));
			if (taken.samples.length === 0) return;
			if (!isOpen) {
				isOpen = true;
				clearTimeout(patience);
				listener({
					kind: 'open',
					sampleRateHz: sound.kind === 'data' ? sound.format.sampleRateHz : sampleRateHz,
					from: name,
				});
			}

			listener({kind: 'samples', samples: taken.samples});
		});
		child.stderr.on('data', (chunk: Buffer) => {
			const said = chunk.toString();
			words = (words + said).slice(-4000);
			if (isOpen && !isOver && !isStopped && tellsOfLoss(said)) listener({kind: 'lost'});
		});
		child.on('error', error => over(troubleOf(complaintIn(error.message), name)));
		child.on('close', () => over(troubleOf(complaintIn(words), name)));
		return () => {
			isOver = true;
			clearTimeout(patience);
			child.kill();
		};
	};

	if (candidates.length === 0) {
		const sought = only ?? (isKnown(platform) ? recordersFor(platform).join(', ') : 'one for this system');
		// As the others do: never before the caller has what it needs to stop.
		queueMicrotask(() => giveUp(troubleOf('no-program', sought)));
	} else tryNext();

	return {
		stop() {
			isStopped = true;
			stopCurrent();
		},
	};
}

/** The complaint that helps most: a refusal before a missing device before a mere end. */
const telling = ['refused', 'busy', 'no-device', 'no-sound-server', 'nothing-arrives', 'stopped'] as const;

function worthTelling(complaints: readonly Trouble[]): Trouble {
	for (const code of telling) {
		const found = complaints.find(c => c.code === code);
		if (found) return found;
	}

	return complaints[0] ?? troubleOf('stopped', 'The recorder');
}

/** Windows' ffmpeg must be told an input by name: the first it lists. */
function defaultInput(
	name: RecorderName,
	platform: string,
	environment: RecorderOptions['environment'],
): string | undefined {
	if (name !== 'ffmpeg' || platform !== 'win32') return undefined;
	const {stderr} = spawnSync(onPath(name, environment, platform) ?? name, listDirectShow, {
		encoding: 'utf8',
		timeout: 5000,
	});
	return directShowInputs(stderr ?? '')[0];
}
