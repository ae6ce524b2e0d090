/** Target notes of a whole instrument. */
export interface Tuning {
	readonly id: string;
	readonly name: string;
	/** Scientific pitch names, thinnest string first. */
	readonly notes: readonly string[];
}

/**
 * Tunings that a bench meets most (common practice, no source). Spelled as the
 * trade spells them: "E flat tuning", but "drop C sharp".
 */
export const tunings = [
	{id: '6-standard', name: 'standard', notes: ['E4', 'B3', 'G3', 'D3', 'A2', 'E2']},
	{id: '6-half-step-down', name: 'half-step down', notes: ['Eb4', 'Bb3', 'Gb3', 'Db3', 'Ab2', 'Eb2']},
	{id: '6-whole-step-down', name: 'whole-step down', notes: ['D4', 'A3', 'F3', 'C3', 'G2', 'D2']},
	{id: '6-drop-d', name: 'drop D', notes: ['E4', 'B3', 'G3', 'D3', 'A2', 'D2']},
	{id: '6-drop-c-sharp', name: 'drop C#', notes: ['D#4', 'A#3', 'F#3', 'C#3', 'G#2', 'C#2']},
	{id: '6-drop-c', name: 'drop C', notes: ['D4', 'A3', 'F3', 'C3', 'G2', 'C2']},
	{id: '6-drop-b', name: 'drop B', notes: ['C#4', 'G#3', 'E3', 'B2', 'F#2', 'B1']},
	{id: '6-c-standard', name: 'C standard', notes: ['C4', 'G3', 'Eb3', 'Bb2', 'F2', 'C2']},
	{id: '6-b-standard', name: 'B standard', notes: ['B3', 'F#3', 'D3', 'A2', 'E2', 'B1']},
	{id: '6-open-d', name: 'open D', notes: ['D4', 'A3', 'F#3', 'D3', 'A2', 'D2']},
	{id: '6-open-g', name: 'open G', notes: ['D4', 'B3', 'G3', 'D3', 'G2', 'D2']},
	{id: '6-dadgad', name: 'D A D G A D', notes: ['D4', 'A3', 'G3', 'D3', 'A2', 'D2']},
	{id: '7-standard', name: 'standard', notes: ['E4', 'B3', 'G3', 'D3', 'A2', 'E2', 'B1']},
	{id: '7-half-step-down', name: 'half-step down', notes: ['Eb4', 'Bb3', 'Gb3', 'Db3', 'Ab2', 'Eb2', 'Bb1']},
	{id: '7-whole-step-down', name: 'whole-step down', notes: ['D4', 'A3', 'F3', 'C3', 'G2', 'D2', 'A1']},
	{id: '7-drop-a', name: 'drop A', notes: ['E4', 'B3', 'G3', 'D3', 'A2', 'E2', 'A1']},
	{id: '7-drop-g-sharp', name: 'drop G#', notes: ['D#4', 'A#3', 'F#3', 'C#3', 'G#2', 'D#2', 'G#1']},
	{id: '7-drop-g', name: 'drop G', notes: ['D4', 'A3', 'F3', 'C3', 'G2', 'D2', 'G1']},
	{id: '8-standard', name: 'standard', notes: ['E4', 'B3', 'G3', 'D3', 'A2', 'E2', 'B1', 'F#1']},
	{id: '8-half-step-down', name: 'half-step down', notes: ['Eb4', 'Bb3', 'Gb3', 'Db3', 'Ab2', 'Eb2', 'Bb1', 'F1']},
	{id: '8-drop-e', name: 'drop E', notes: ['E4', 'B3', 'G3', 'D3', 'A2', 'E2', 'B1', 'E1']},
	{id: '8-drop-e-flat', name: 'drop Eb', notes: ['Eb4', 'Bb3', 'Gb3', 'Db3', 'Ab2', 'Eb2', 'Bb1', 'Eb1']},
] as const satisfies readonly Tuning[];

export type TuningId = (typeof tunings)[number]['id'];

/** Tunings for an instrument with that many strings, most usual first. */
export function tuningsFor(strings: number): readonly Tuning[] {
	return tunings.filter(({notes}) => notes.length === strings);
}

/** The tuning that has exactly these notes, thinnest first, if it is one we know by name. */
export function tuningOf(notes: readonly string[]): Tuning | undefined {
	return tunings.find(tuning => tuning.notes.join() === notes.join());
}
