import {evenPress, fretDetour, type Press} from './fretting.ts';
import type {Guitar} from './guitar.ts';
import {settled} from './rest.ts';
import {type Detour, lineTensionN, rigOf, speakingM} from './rig.ts';
import {centsBetween, modeHz} from './wire.ts';

export const hows = ['open', 'harmonic', 'fretted'] as const;

/** How a string is sounded; the fret counts from the nut, 12 when absent. `harmonic` is the one at the 12th fret. */
export interface Sounding {
	readonly how: (typeof hows)[number];
	readonly fret?: number;
}

/** Below this share of the tension that the target asks for (some two octaves down), a string only rattles. */
const slackShare = 0.06;

/** A string that is off or slack has no tension worth a pitch. */
export function tensionsN(guitar: Guitar): readonly number[] {
	const rig = rigOf(guitar);
	return rig.lines.map(line => lineTensionN(rig, line, speakingM(line, guitar.angleRad)));
}

/**
 * True pitch of a string, cents against the target sounded that way (harmonic
 * and fretted 12th: target + 1 octave), with the guitar as it is while the
 * string is held that way. Undefined when off or slack.
 */
export function soundCents(guitar: Guitar, string: number, sounding: Sounding, press = evenPress): number | undefined {
	if (sounding.how !== 'fretted') return centsOf(guitar, string, sounding.how === 'harmonic' ? 2 : 1);
	const fret = sounding.fret ?? 12;
	const detour = fretDetour(guitar, string, fret, press);
	const shownHz = guitar.spec.strings[string]!.targetHz * 2 ** (fret / 12);
	return centsOf(settled(guitar, detour), string, 1, shownHz, detour);
}

/** Open fundamental, cents against target. */
export function openCents(guitar: Guitar, string: number): number | undefined {
	return centsOf(guitar, string, 1);
}

/** The guitar after a string was pressed at a fret and let go: friction may not bring everything back. */
export function pressedAndReleased(guitar: Guitar, string: number, fret: number, press: Press): Guitar {
	return settled(settled(guitar, fretDetour(guitar, string, fret, press)));
}

function centsOf(
	guitar: Guitar,
	string: number,
	mode: number,
	referenceHz = guitar.spec.strings[string]!.targetHz * mode,
	detour?: Detour,
): number | undefined {
	const rig = rigOf(guitar, detour);
	const line = rig.lines[string]!;
	const lengthM = speakingM(line, guitar.angleRad);
	const tensionN = lineTensionN(rig, line, lengthM);
	const hz = tensionN > 0 ? modeHz(line.wire, tensionN, lengthM, rig.endStiffness, mode) : 0;
	return hz > referenceHz * Math.sqrt(slackShare) ? centsBetween(hz, referenceHz) : undefined;
}
