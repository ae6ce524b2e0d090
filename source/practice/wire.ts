import type {Wire} from './guitar.ts';

/**
 * Frequency of one mode of a stretched elastic wire with some bending
 * stiffness, ends held between hinged (0) and clamped (2):
 *
 *     f = (q / 2L) √(T / m) (1 + eB + (e² + q²π²/2) B²),   B = √(EI / T) / L
 *
 * Mass is conserved: m = unstretched mass per length / (1 + T / EA).
 * For e = 1 and 2 this is the expansion quoted in the literature for one and
 * two clamped ends (Anderson & Beausoleil, J. Acoust. Soc. Am. 156(1), 683,
 * 2024; Varieschi & Gower, Am. J. Phys. 78, 47, 2010); between them the
 * practice guitar interpolates. Tension and length positive.
 */
export function modeHz(wire: Wire, tensionN: number, speakingM: number, endStiffness: number, mode = 1): number {
	const waveSpeed = Math.sqrt((tensionN * (1 + tensionN / wire.stretchStiffnessN)) / wire.massKgPerM);
	return ((mode * waveSpeed) / (2 * speakingM)) * stiffening(wire, tensionN, speakingM, endStiffness, mode);
}

/** Tension at which the open fundamental is `frequencyHz`: the inverse of `modeHz` for mode 1. */
export function tensionForHz(wire: Wire, frequencyHz: number, speakingM: number, endStiffness: number): number {
	let tensionN = loadedTension(wire, 2 * speakingM * frequencyHz);
	// The stiffness term is some thousandths and falls as 1/√T, so each round gains two to three digits.
	for (let round = 0; round < 5; round++) {
		const stiff = stiffening(wire, tensionN, speakingM, endStiffness, 1);
		tensionN = loadedTension(wire, (2 * speakingM * frequencyHz) / stiff);
	}

	return tensionN;
}

/** T (1 + T/EA) = m v² solved for T, written so that nothing cancels. */
function loadedTension({massKgPerM, stretchStiffnessN}: Wire, waveSpeedMPerS: number): number {
	const load = massKgPerM * waveSpeedMPerS * waveSpeedMPerS;
	return (2 * load) / (1 + Math.sqrt(1 + (4 * load) / stretchStiffnessN));
}

function stiffening(wire: Wire, tensionN: number, speakingM: number, endStiffness: number, mode: number): number {
	const stiffness = Math.sqrt(wire.bendStiffnessNM2 / tensionN) / speakingM;
	const quadratic = endStiffness * endStiffness + 0.5 * mode * mode * Math.PI * Math.PI;
	return 1 + endStiffness * stiffness + quadratic * stiffness * stiffness;
}

export function centsBetween(frequencyHz: number, referenceHz: number): number {
	return 1200 * Math.log2(frequencyHz / referenceHz);
}

export function hzAt(referenceHz: number, cents: number): number {
	return referenceHz * 2 ** (cents / 1200);
}
