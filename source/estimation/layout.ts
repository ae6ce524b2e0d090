/**
 * Where each unknown stands in the belief's vector for n strings.
 *
 * | entries | meaning | unit |
 * |---|---|---|
 * | pull | tension of each string with the plate as it came in, over its tension at pitch | 1 |
 * | stiffness | ln of axial stiffness over nominal, each string | 1 |
 * | mass | ln of mass per length over nominal, each string | 1 |
 * | behind | length from nut to peg that shares the stretch while wire slides, over nominal, less 1, each string | 1 |
 * | rate | ln of (K / h²) over nominal: spring stiffness felt at the strings | 1 |
 * | balance | spring moment with the plate as it came in, over that of all strings at pitch, less 1 | 1 |
 * | home | the same with the plate truly level | 1 |
 * | friction | same unit: the most that friction at the knife edge can hold | 1 |
 * | arm | ln of h over nominal | 1 |
 * | springArm | ln of the springs' arm over nominal | 1 |
 * | stop | angle of the back stop from level | radians |
 * | setback | distance of the string contacts behind the knife edge | metres |
 * | support | angle at which a support holds the plate, from as it came in | radians |
 *
 * Angles are counted from how the plate came in, and pulls as shares of the
 * tension at pitch, because then a reading fixes a pull whatever stiffness and
 * mass may be: the belief stays nearly Gaussian while those are still wide open.
 */
export interface Layout {
	readonly strings: number;
	readonly size: number;
	pull(index: number): number;
	stiffness(index: number): number;
	mass(index: number): number;
	behind(index: number): number;
	readonly rate: number;
	readonly balance: number;
	readonly home: number;
	readonly friction: number;
	readonly arm: number;
	readonly springArm: number;
	readonly stop: number;
	readonly setback: number;
	readonly support: number;
}

/** The layout for n strings. */
export function layoutOf(n: number): Layout {
	return {
		strings: n,
		size: 4 * n + 9,
		pull: index => index,
		stiffness: index => n + index,
		mass: index => 2 * n + index,
		behind: index => 3 * n + index,
		rate: 4 * n,
		balance: 4 * n + 1,
		home: 4 * n + 2,
		friction: 4 * n + 3,
		arm: 4 * n + 4,
		springArm: 4 * n + 5,
		stop: 4 * n + 6,
		setback: 4 * n + 7,
		support: 4 * n + 8,
	};
}
