/** One string of a set as sold. */
export interface SetString {
	/** Outer gauge, thousandths of an inch. */
	readonly gaugeThou: number;
	readonly wound: boolean;
}

/** A set of strings as sold by its gauges alone. */
export interface StringSet {
	readonly id: string;
	/** What the trade calls it for short: `tens`. */
	readonly name: string;
	/** Thinnest first. */
	readonly strings: readonly SetString[];
}

/**
 * Sets that a bench meets most: gauges and which strings are wound are common
 * practice, no source (written down from memory). Sets of one name differ
 * between sellers by a thousandth or two in the middle strings: the packet
 * decides, and every gauge can be typed. A line reads as a packet does, thin
 * to thick, `w` for wound.
 */
const packets = [
	['eights', '8 10 15 21w 30w 38w'],
	['nines', '9 11 16 24w 32w 42w'],
	['nines to 46', '9 11 16 26w 36w 46w'],
	['nine and a halves', '9.5 11.5 16 24w 34w 44w'],
	['tens', '10 13 17 26w 36w 46w'],
	['tens to 52', '10 13 17 30w 42w 52w'],
	['elevens', '11 14 18 28w 38w 49w'],
	['elevens to 48', '11 14 18 28w 38w 48w'],
	['twelves', '12 16 24w 32w 42w 52w'],
	['twelves to 60', '12 16 20 34w 46w 60w'],
	['seven-string nines', '9 11 16 24w 32w 42w 54w'],
	['seven-string tens', '10 13 17 26w 36w 46w 56w'],
	['seven-string tens to 59', '10 13 17 26w 36w 46w 59w'],
	['seven-string tens to 62', '10 13 17 30w 42w 52w 62w'],
	['seven-string elevens', '11 14 18 28w 38w 49w 64w'],
	['eight-string nines', '9 11 16 24w 32w 42w 54w 65w'],
	['eight-string tens', '10 13 17 30w 42w 54w 64w 74w'],
] as const;

export const stringSets: readonly StringSet[] = packets.map(([name, line]) => {
	const strings = line.split(' ').map(gauge => ({gaugeThou: Number.parseFloat(gauge), wound: gauge.endsWith('w')}));
	return {id: `${strings.length}: ${endsOf(strings)}`, name, strings};
});

/** Sets for an instrument with that many strings, thinnest first. */
export function setsFor(count: number): readonly StringSet[] {
	return stringSets.filter(({strings}) => strings.length === count);
}

/** `10-46`: a set by its thinnest and thickest gauge. */
export function endsOf(strings: readonly SetString[]): string {
	return `${strings[0]?.gaugeThou ?? ''}-${strings.at(-1)?.gaugeThou ?? ''}`;
}

/** The set that has exactly these strings, if it is one we know by name. */
export function setOf(strings: readonly SetString[]): StringSet | undefined {
	const key = keyOf(strings);
	return stringSets.find(set => keyOf(set.strings) === key);
}

/**
 * Whether a string of this gauge is usually wound: thicker than .020 in
 * (common practice, no source; a wound third of .018 to .020 must be said).
 */
export function isUsuallyWound(gaugeThou: number): boolean {
	return gaugeThou > 20;
}

function keyOf(strings: readonly SetString[]): string {
	return strings.map(({gaugeThou, wound}) => `${gaugeThou}${wound ? 'w' : ''}`).join(' ');
}
