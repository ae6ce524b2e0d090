import type {Listening} from './listening.ts';

/** What can keep sound from becoming readings. */
export const troubleCodes = [
	'no-program',
	'no-device',
	'refused',
	'busy',
	'no-sound-server',
	'stopped',
	'no-file',
	'not-sound',
	'nothing-arrives',
	'silence',
	'too-soft',
	'clipping',
	'losing-samples',
	'hum',
] as const;
export type TroubleCode = (typeof troubleCodes)[number];

/** A trouble, said in one sentence; `isFatal` when no sound comes any more and readings must be typed. */
export interface Trouble {
	readonly code: TroubleCode;
	readonly said: string;
	readonly isFatal: boolean;
}

const fatal: readonly TroubleCode[] = [
	'no-program',
	'no-device',
	'refused',
	'busy',
	'no-sound-server',
	'stopped',
	'no-file',
	'not-sound',
];

/**
 * The sentence for a trouble.
 *
 * @param detail What the sentence is about: programs looked for, the program, the file, hertz of the hum.
 */
export function troubleOf(code: TroubleCode, detail = ''): Trouble {
	return {code, said: sentenceFor(code, detail), isFatal: fatal.includes(code)};
}

function sentenceFor(code: TroubleCode, detail: string): string {
	switch (code) {
		case 'no-program':
			return `No program that records sound was found (looked for ${detail}); type the readings, or install one of them.`;
		case 'no-device':
			return `${detail} found no microphone or sound input; plug one in, or type the readings.`;
		case 'refused':
			return `${detail} may not use the sound input; allow it in the system's privacy or group settings, or type the readings.`;
		case 'busy':
			return 'Another program is using the sound input; close it, or type the readings.';
		case 'no-sound-server':
			return `${detail} could not reach the sound server; start it, or type the readings.`;
		case 'stopped':
			return `${detail} stopped recording; start listening again, or type the readings.`;
		case 'no-file':
			return `The file ${detail} cannot be opened; check its name, or type the readings.`;
		case 'not-sound':
			return `${detail} is not a WAV recording that can be read (8 to 32 bits, not compressed); type the readings.`;
		case 'nothing-arrives':
			return `${detail} runs but sends no sound; check the input in the system's sound settings, or type the readings.`;
		case 'silence':
			return 'Only perfect silence arrives: the input is muted or the wrong one.';
		case 'too-soft':
			return 'The pluck is hardly louder than the noise; turn the input up or come nearer.';
		case 'clipping':
			return 'The sound is cut off at full scale; turn the input down or play softer.';
		case 'losing-samples':
			return 'Pieces of sound are getting lost; close other programs if readings stay unsure.';
		case 'hum':
			return `The mains hum at ${detail} Hz is strong; move away from power supplies or turn the guitar.`;
		default: {
			const never: never = code;
			throw new RangeError(`troubleOf: unknown code ${String(never)}`);
		}
	}
}

/** Perfect silence for this long is no pause but a muted input, s. */
const silentS = 2;
/** A pluck softer than this over the noise cannot be read well: level of its partials, dB re full scale. */
const softestDb = -60;

/** What the sound itself shows to be wrong now, worst first. */
export function troublesIn(listening: Listening): readonly Trouble[] {
	const {level, recent, recentFrom, sampleRateHz, pluck, hum, losses} = listening;
	const troubles: Trouble[] = [];
	if (level.isDigitalSilence && recentFrom + recent.length > silentS * sampleRateHz)
		troubles.push(troubleOf('silence'));
	if (level.clippedSamples > 0) troubles.push(troubleOf('clipping'));
	if (losses > 0) troubles.push(troubleOf('losing-samples'));
	const tone = pluck?.tone;
	if (tone && 20 * Math.log10(tone.level + 1e-9) < softestDb) troubles.push(troubleOf('too-soft'));
	if (hum) troubles.push(troubleOf('hum', String(hum.hz)));
	return troubles;
}
