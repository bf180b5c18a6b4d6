using System.Collections.Immutable;

using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search.Band;

/// <summary>The emitters that stay where they are.</summary>
/// <param name="Index">Which emitter of the band's problem each of them is.</param>
/// <param name="Search">The problem of them alone, with the receiver on channel 0.</param>
internal sealed record BandOthers(int[] Index, SearchProblem Search)
{
    /// <summary>All but the moving emitter.</summary>
    /// <param name="band">The band.</param>
    /// <param name="besides">Whether those are left out that are never on the air together with the moving one.</param>
    public static BandOthers Of(BandProblem band, bool besides)
    {
        SearchProblem all = band.Search;
        HashSet<int> out0 = band.Moving is { } m ? [m] : [];
        foreach (ImmutableArray<int> group in all.ExclusiveGroups)
        {
            if (besides && band.Moving is { } moving && group.Contains(moving))
            {
                out0.UnionWith(group);
            }
        }

        int[] index = [.. Enumerable.Range(0, all.Emitters.Length).Where(i => !out0.Contains(i))];
        Dictionary<int, int> place = index.Index().ToDictionary(static p => p.Item, static p => p.Index);
        ImmutableArray<SearchStage> stages =
        [
            .. band.Receiver.Stages.Select(s => s with { LevelMicroDbm = [.. index.Select(i => s.LevelMicroDbm[i])] }),
        ];
        return new BandOthers(index, all with
        {
            Emitters = [.. index.Select(i => all.Emitters[i])],
            Receivers = [band.Receiver with { Stages = stages }],
            ExclusiveGroups =
            [
                .. all.ExclusiveGroups.Select(g => (ImmutableArray<int>)[.. g.Where(place.ContainsKey).Select(i => place[i])]),
            ],
        });
    }

    /// <summary>The most that so many orders of them add up to, in hertz.</summary>
    public long MostHz(int orders)
    {
        long highest = 0;
        foreach (SearchEmitter emitter in Search.Emitters)
        {
            highest = Math.Max(highest, emitter.FrequencyHz);
        }

        return orders * highest;
    }

    /// <summary>
    /// A receiver for which m orders of them have the level, or a little more, that m + |c| orders have with the moving emitter taken |c|
    /// times: its share is put into the intercepts.
    /// </summary>
    /// <param name="band">The band.</param>
    /// <param name="times">|c|.</param>
    /// <param name="most">The highest m.</param>
    public SearchReceiver With(BandProblem band, int times, int most)
    {
        SearchReceiver own = Search.Receivers[0];
        SearchStage[] stages = new SearchStage[own.Stages.Length];
        bool noiseLike = band.Search.Emitters[band.Moving!.Value].NoiseLike;
        for (int s = 0; s < stages.Length; s++)
        {
            SearchStage stage = own.Stages[s];
            int level = band.Receiver.Stages[s].LevelMicroDbm[band.Moving.Value];
            int[] intercepts = new int[Multinomial.MaxOrder + 1];
            for (int m = 2; m <= most && level != MicroDb.Unknown; m++)
            {
                long wanted = ProductLevel.OrderMicroDb(m + times, stage.InterceptMicroDbm[m + times], stage.ReferralMicroDb)
                    + ProductLevel.EmitterMicroDb(times, level, noiseLike);
                long without = ProductLevel.OrderMicroDb(m, 0, stage.ReferralMicroDb);

                // Rounded down: then the level comes out no lower.
                long intercept = (long)Math.Floor((without - wanted) / (m - 1.0)) - 1;
                if (intercept < -MicroDb.Limit)
                {
                    level = MicroDb.Unknown;
                }

                intercepts[m] = (int)Math.Min(intercept, MicroDb.Limit);
            }

            if (level == MicroDb.Unknown)
            {
                // Of unknown level is every product, then, or none can be bounded: levels decide nothing here.
                return own with { Stages = [], FloorMicroDbm = null };
            }

            stages[s] = stage with { InterceptMicroDbm = ImmutableArray.Create(intercepts) };
        }

        return own with { Stages = ImmutableArray.Create(stages) };
    }
}

/// <summary>The level of a product by a problem's one receiver, as a search gives it.</summary>
internal static class BandLevel
{
    /// <summary>The level of the strongest stage, and which that is; unknown where one emitter's is.</summary>
    public static (long MicroDbm, int Stage) Of(SearchProblem problem, ReadOnlySpan<int> emitters, ReadOnlySpan<int> coefficients)
    {
        int order = 0;
        foreach (int coefficient in coefficients)
        {
            order += Math.Abs(coefficient);
        }

        long best = ProductRecord.UnknownLevel;
        int at = 0;
        for (int s = 0; s < problem.Receivers[0].Stages.Length; s++)
        {
            SearchStage stage = problem.Receivers[0].Stages[s];
            long level = ProductLevel.OrderMicroDb(order, stage.InterceptMicroDbm[order], stage.ReferralMicroDb);
            for (int t = 0; t < emitters.Length; t++)
            {
                int one = stage.LevelMicroDbm[emitters[t]];
                if (one == MicroDb.Unknown)
                {
                    return (ProductRecord.UnknownLevel, 0);
                }

                level += ProductLevel.EmitterMicroDb(Math.Abs(coefficients[t]), one, problem.Emitters[emitters[t]].NoiseLike);
            }

            if (s == 0 || level > best)
            {
                (best, at) = (level, s);
            }
        }

        return (best, at);
    }
}
