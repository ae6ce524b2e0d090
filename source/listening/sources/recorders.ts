import type {TroubleCode} from '../trouble.ts';

/** Programs that machines often have and that can write sound as raw samples. */
export const recorderNames = ['parec', 'pw-record', 'arecord', 'ffmpeg', 'sox'] as const;
export type RecorderName = (typeof recorderNames)[number];

export const platforms = ['linux', 'darwin', 'win32'] as const;
export type Platform = (typeof platforms)[number];

/** A command line whose standard output is sound: 16 bits, one channel, little-endian. */
export interface RecorderCommand {
	readonly name: RecorderName;
	readonly args: readonly string[];
}

/** Which recorders suit a platform, best first: those that speak to the desktop's own sound server before those that take the card for themselves. */
const suited: Readonly<Record<Platform, readonly RecorderName[]>> = {
	linux: ['parec', 'pw-record', 'arecord', 'ffmpeg', 'sox'],
	darwin: ['sox', 'ffmpeg'],
	win32: ['sox', 'ffmpeg'],
};

export function recordersFor(platform: Platform): readonly RecorderName[] {
	return suited[platform];
}

/**
 * The command line of a recorder.
 *
 * @param device The input's name as that program knows it; undefined for the
 * system's default. Windows' ffmpeg has no default: see `directShowInputs`.
 */
export function recorderCommand(
	name: RecorderName,
	platform: Platform,
	sampleRateHz: number,
	device?: string,
): RecorderCommand {
	const rate = String(sampleRateHz);
	switch (name) {
		case 'parec':
			return {
				name,
				args: [
					'--raw',
					'--format=s16le',
					'--channels=1',
					`--rate=${rate}`,
					'--latency-msec=30',
					...(device ? [`--device=${device}`] : []),
				],
			};
		case 'pw-record':
			return {
				name,
				args: ['--format=s16', '--channels=1', `--rate=${rate}`, ...(device ? [`--target=${device}`] : []), '-'],
			};
		case 'arecord':
			return {
				name,
				args: ['-q', '-t', 'raw', '-f', 'S16_LE', '-c', '1', '-r', rate, ...(device ? ['-D', device] : [])],
			};
		case 'ffmpeg':
			return {
				name,
				args: [
					'-hide_banner',
					'-nostdin',
					'-loglevel',
					'warning',
					...ffmpegInput(platform, device),
					'-ac',
					'1',
					'-ar',
					rate,
					'-f',
					's16le',
					'-',
				],
			};
		case 'sox':
			return {
				name,
				args: [
					'-q',
					...soxInput(platform, device),
					'-t',
					'raw',
					'-e',
					'signed-integer',
					'-b',
					'16',
					'-L',
					'-c',
					'1',
					'-r',
					rate,
					'-',
				],
			};
		default: {
			const never: never = name;
			throw new RangeError(`recorderCommand: unknown recorder ${String(never)}`);
		}
	}
}

function ffmpegInput(platform: Platform, device: string | undefined): readonly string[] {
	if (platform === 'darwin') return ['-f', 'avfoundation', '-i', `:${device ?? 'default'}`];
	if (platform === 'win32') return ['-f', 'dshow', '-audio_buffer_size', '30', '-i', `audio=${device ?? ''}`];
	return ['-f', 'alsa', '-i', device ?? 'default'];
}

function soxInput(platform: Platform, device: string | undefined): readonly string[] {
	if (platform === 'darwin') return device ? ['-t', 'coreaudio', device] : ['-d'];
	if (platform === 'win32') return ['-t', 'waveaudio', device ?? 'default'];
	return device ? ['-t', 'alsa', device] : ['-d'];
}

/** Arguments that make Windows' ffmpeg list inputs, on its standard error. */
export const listDirectShow: readonly string[] = [
	'-hide_banner',
	'-list_devices',
	'true',
	'-f',
	'dshow',
	'-i',
	'dummy',
];

/** Names of sound inputs in that list, in order. */
export function directShowInputs(listing: string): readonly string[] {
	const inputs: string[] = [];
	let isAudio = false;
	for (const line of listing.split(/\r?\n/)) {
		// Older versions print a heading for each kind, newer ones say the kind behind each name.
		if (/DirectShow (audio|video) devices/.test(line)) isAudio = line.includes('audio');
		const named = /"([^"@][^"]*)"\s*(?:\((audio|video|none)[^)]*\))?/.exec(line);
		if (!named || /Alternative name/.test(line)) continue;
		if (named[2] ? named[2] === 'audio' : isAudio) inputs.push(named[1]!);
	}

	return inputs;
}

/** What a recorder complains of, told from its last words; `stopped` when they say nothing we know. */
export function complaintIn(words: string): TroubleCode {
	if (/permission denied|not permitted|access is denied|not authori[sz]ed|access denied/i.test(words)) return 'refused';
	if (/resource busy|device busy|already in use|in use by another/i.test(words)) return 'busy';
	if (
		/connection (refused|failure|terminated)|host is down|pw_context_connect|can't connect|cannot connect/i.test(words)
	)
		return 'no-sound-server';
	if (
		/no such (file|device|entity)|cannot find card|no soundcards|unknown pcm|invalid (card|device)|no such device|could not find|device not found|can't open input|cannot open audio|no default|unable to (find|open)|i\/o error/i.test(
			words,
		)
	)
		return 'no-device';
	return 'stopped';
}

/** Whether a recorder says that it lost samples. */
export function tellsOfLoss(words: string): boolean {
	return /overrun|xrun|real-?time buffer .*too full|dropped|discarding|queue blocking/i.test(words);
}
