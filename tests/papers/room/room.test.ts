/** Will it go in: the page of the samples, and cars whose answer is plain. */
import { describe, expect, it } from 'vitest';
import { roomPapers } from '../../../server/papers/room/papers';
import { sampleInput } from '../bend/support';
import { read, rowsOf } from '../support';

describe('will it go in?', () => {
  it('a diagonal that the harness bar shuts in is tacked before it', async () => {
    const [paper] = roomPapers(await sampleInput('plover-rollbar'));
    const page = String(paper?.content);
    expect(read(page).words).toMatch(/Look here first.*03 diagonal.*Tack it before 04 harness-bar/s);
    expect(rowsOf(page, 'Bars that go in').map((row) => row[0])).toEqual([expect.stringContaining('harness-bar')]);
  });
});
