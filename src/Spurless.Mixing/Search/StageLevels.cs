using System.Collections.Immutable;

using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search;

/// <summary>Levels of one product over the stages of a receiver.</summary>
internal static class StageLevels
{
    /// <summary>
    /// The strongest stage's level and which it is; of equal ones the first. Unknown where an emitter is, or without a stage.
    /// </summary>
    public static (long Level, int Stage) Strongest(
        SearchProblem problem, ImmutableArray<SearchStage> stages, ReadOnlySpan<int> emitters, ReadOnlySpan<int> coefficients, int order)
    {
        long best = ProductRecord.UnknownLevel;
        int bestStage = 0;
        for (int s = 0; s < stages.Length; s++)
        {
            SearchStage stage = stages[s];
            long level = ProductLevel.OrderMicroDb(order, stage.InterceptMicroDbm[order], stage.ReferralMicroDb);
            for (int i = 0; i < emitters.Length; i++)
            {
                int own = stage.LevelMicroDbm[emitters[i]];
                if (own == MicroDb.Unknown)
                {
                    return (ProductRecord.UnknownLevel, 0);
                }

                level += ProductLevel.EmitterMicroDb(Math.Abs(coefficients[i]), own, problem.Emitters[emitters[i]].NoiseLike);
            }

            if (s == 0 || level > best)
            {
                (best, bestStage) = (level, s);
            }
        }

        return (best, bestStage);
    }
}
