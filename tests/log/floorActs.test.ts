import { describe, test } from 'vitest';
import { REAL } from './room';
import {
  aBadRoundStoresNothing,
  aCountLeavesThePadAlone,
  aMoveKeepsEverything,
  anOldSessionLosesItsExposure,
  aRemovedBlockLeavesItsSets,
  aRoundFillsWhatIsMissing,
  aStartedSessionKeepsItsPlan,
  pausesEndAfterTheyBegan,
  plannedIdsCountUp,
} from './suite-floor';

describe('the acts on a whole session', { timeout: 30_000 }, () => {
  test('a round fills what is missing, and is one act', () => aRoundFillsWhatIsMissing(REAL));
  test('a round with a bad set stores nothing', () => aBadRoundStoresNothing(REAL));
  test('[M5] a removed block leaves its sets', () => aRemovedBlockLeavesItsSets(REAL));
  test('[M11] planned sessions count up', () => plannedIdsCountUp(REAL));
  test('[M11] a started session keeps its plan', () => aStartedSessionKeepsItsPlan(REAL));
  test('[M12] a moved set keeps everything', () => aMoveKeepsEverything(REAL));
  test('[M4] pauses end after they began', () => pausesEndAfterTheyBegan(REAL));
  test('a count leaves the pad alone', () => aCountLeavesThePadAlone(REAL));
  test('[M7] an old session loses its exposure', () => anOldSessionLosesItsExposure(REAL));
});
