/** Done, or a sentence saying what stood in the way and what to do. */
export type Outcome = {readonly ok: true} | Refused;

export interface Refused {
	readonly ok: false;
	readonly said: string;
}
