import {hasShape, isNumber, isText, type ShapeOf} from '../session/shape.ts';
import type {Read} from './setup-file.ts';
import {type Layout, openDocument} from './versions.ts';

/** One guitar as it lies in `guitars/ID.json`. */
export interface StoredGuitar {
	readonly id: string;
	readonly name: string;
	/** Milliseconds since 1970. */
	readonly createdAt: number;
	/** What was learned about the instrument; its shape is the estimation's own. */
	readonly learned?: unknown;
}

export const guitarLayout: Layout = {format: 'evenfloat-guitar', version: 1, steps: {}};

const shape: ShapeOf<Required<StoredGuitar>> = {id: isText, name: isText, createdAt: isNumber, learned: () => true};

export function guitarFrom(text: string): Read<StoredGuitar> {
	const opened = openDocument(text, guitarLayout);
	return opened.kind === 'current' ? checkedGuitar(opened.document) : opened;
}

export function checkedGuitar(document: unknown): Read<StoredGuitar> {
	if (!hasShape(shape)(document)) return {kind: 'damaged', why: 'its fields are not whole'};
	const {format: _, version: __, ...guitar} = document as StoredGuitar & {format?: unknown; version?: unknown};
	return {kind: 'current', value: guitar};
}

export function guitarText(guitar: StoredGuitar): string {
	const {format, version} = guitarLayout;
	return `${JSON.stringify({format, version, ...guitar}, undefined, '\t')}\n`;
}
