using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Mixing.Evidence;
using Spurless.Reports.Recordings;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;

namespace Spurless.Reports.Locating;

/// <summary>Observations in words: what was read, what a hypothesis says of it, what to do next and who does it.</summary>
public static class ObservationWords
{
    /// <summary>What was observed: <c>with 3 dB in line at the antenna it fell by 8.6 dB</c>.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="clue">Index of the clue.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Observed(LocatedReceiver located, int clue, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        Clue of = located.Weighed.Clues[clue];
        Observation observation = located.Weighed.Case.Observations[of.Observation];
        return of.Kind switch
        {
            ClueKind.Level => $"read {Db(((FallObservation)observation).OverNoiseDb, typography)} over noise",
            ClueKind.Fall => $"{Changed(located, (FallObservation)observation, located.Entries[of.Observation], typography)} it "
                + Fell(((FallObservation)observation).FallDb, typography),
            ClueKind.Offset => $"measured {Hertz(((OffsetReading)observation).OffsetHz, typography)} off the channel's centre",
            ClueKind.Log => "the log of " + InWords(((LogReading)observation).Moments.Counted, typography),
            _ => "the recording with "
                + string.Join(", ", ((RecordingHeard)located.Entries[of.Observation]).Kinds.Select(ListenWords.Plain)),
        };
    }

    /// <summary>What was observed and what a hypothesis says of it.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="clue">Index of the clue.</param>
    /// <param name="hypothesis">Index of the hypothesis.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Reason(LocatedReceiver located, int clue, int hypothesis, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        WeighedEvidence weighed = located.Weighed;
        Clue of = weighed.Clues[clue];
        Hypothesis h = weighed.Hypotheses[hypothesis];
        string observed = Observed(located, clue, typography);
        switch (of.Kind)
        {
            case ClueKind.Log:
                LogCounts counts = ((LogReading)weighed.Case.Observations[of.Observation]).Moments.CountsOf(weighed.Case.ProductOf(h));
                return $"{observed}: {Moments(counts, h.Product < 0, typography)}";
            case ClueKind.Given:
                GivenLikelihoods given = (GivenLikelihoods)weighed.Case.Observations[of.Observation];
                return observed + (h.Product < 0 ? "" : Math.Exp(given.LogLikelihoodOfProduct[h.Product]) switch
                {
                    < 0.1 => ": its emitters do not carry just that",
                    < 0.7 => ": not all of its emitters are in it, or its deviation is another",
                    _ => ": its emitters carry just that",
                });
            default:
                Prediction says = weighed.Case.PredictionOf(of, h);
                return $"{observed}: {Says(of.Kind, says, typography)}{Instead(located, of, hypothesis, says, typography)}";
        }
    }

    /// <summary>What a hypothesis says of an observation that could be made, for a cell of a table.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="ask">The observation.</param>
    /// <param name="hypothesis">Index of the hypothesis.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Reading(LocatedReceiver located, Observation ask, int hypothesis, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        Hypothesis h = located.Weighed.Hypotheses[hypothesis];
        switch (ask)
        {
            case MomentToWaitFor moment:
                double chance = NextObservations.ChanceHeard(located.Weighed, moment, h);
                return chance >= 0.75 ? "heard" : chance <= 0.25 ? "not heard" : "either";
            case OffsetReading offset:
                Prediction off = located.Weighed.Case.Offset(offset, h);
                return off.IsNormal ? Hertz(off.Mean, typography) : "anything";
            default:
                Prediction fall = located.Weighed.Case.Fall((FallObservation)ask, h);
                return fall.IsNormal ? Figures.Db(fall.Mean, typography) : "anything";
        }
    }

    /// <summary>What to do, in one sentence.</summary>
    /// <param name="located">The receiver.</param>
    /// <param name="ask">The observation.</param>
    /// <param name="typography">The signs to use.</param>
    public static string Do(LocatedReceiver located, Observation ask, Typography typography)
    {
        ArgumentNullException.ThrowIfNull(located);
        return ask switch
        {
            PadInLine pad => $"put {Figure(pad.PadDb, typography)} of pad {At(located, pad)} and read by how much it falls.",
            FilterInLine filter =>
                $"put {Path.GetFileName(located.Filters[filter.Filter])} in line at the antenna and read by how much it falls.",
            EmitterDown down when double.IsPositiveInfinity(down.ByDb) =>
                $"have the {Emitter(located, down.Emitter)} off for a minute and read by how much it falls.",
            EmitterDown down =>
                $"have the {Emitter(located, down.Emitter)} lowered by {Figure(down.ByDb, typography)} and read by how much it falls.",
            OffsetReading => "measure how far it lies from the channel's centre, in hertz.",
            MomentToWaitFor moment => $"listen at a moment when {NameList.Of([.. moment.On.Select(e => "the " + Emitter(located, e))])} "
                + $"{(moment.On.Count == 1 ? "is" : "are")} on and the {Emitter(located, moment.Off)} is off.",
            _ => "",
        };
    }

    /// <summary>Who does it.</summary>
    /// <param name="ask">The observation.</param>
    public static string Who(Observation ask) => ask switch
    {
        EmitterDown => "its owner: ask",
        MomentToWaitFor => "you, an evening",
        _ => "you, minutes",
    };

    /// <summary>The cautions that go with observations, each once.</summary>
    /// <param name="asks">The observations.</param>
    public static IReadOnlyList<string> Cautions(IEnumerable<Observation> asks)
    {
        Observation[] all = [.. asks];
        List<string> cautions = [];
        if (all.Any(static a => a is EmitterDown))
        {
            cautions.Add(
                "Transmitters and masts are other people's: ask, and let them do it. Nobody climbs, and nobody opens a transmitter or its "
                    + "mains, for this sheet.");
        }

        if (all.Any(static a => a is PadInLine or FilterInLine))
        {
            cautions.Add("Take pads and filters off the line before you transmit into it.");
        }

        cautions.Add(
            "What is heard of other services serves to identify the interference only and is not passed on; local law decides.");
        return cautions;
    }

    /// <summary>The unit that is read: <c>dB</c>, <c>Hz</c>, or nothing for heard or not.</summary>
    /// <param name="ask">The observation.</param>
    public static string Unit(Observation ask) => ask switch
    {
        FallObservation => "dB",
        OffsetReading => "Hz",
        _ => "",
    };

    private static string Changed(LocatedReceiver located, FallObservation fall, EvidenceEntry entry, Typography typography) => fall switch
    {
        PadInLine pad => $"with {Figure(pad.PadDb, typography)} of pad {At(located, pad)}",
        FilterInLine => $"with {Path.GetFileName(((FilterTest)entry).Inserted.Path)} in line at the antenna",
        EmitterDown down when double.IsPositiveInfinity(down.ByDb) => $"with the {Emitter(located, down.Emitter)} off",
        EmitterDown down => $"with the {Emitter(located, down.Emitter)} lowered by {Figure(down.ByDb, typography)}",
        _ => "",
    };

    private static string Says(ClueKind kind, Prediction says, Typography typography) => kind switch
    {
        ClueKind.Level => says.IsNormal
            ? $"{Db(says.Mean, typography)} is predicted, give or take {Figures.BareDb(says.Sigma)}"
            : "nothing predicts its level",
        ClueKind.Offset => says.IsNormal
            ? $"this would lie {Hertz(says.Mean, typography)} off, give or take {says.Sigma.ToString("0", CultureInfo.InvariantCulture)} Hz"
            : "it could lie anywhere",
        _ => says.IsNormal ? $"this would {Fall(says.Mean, typography)}" : "the filter is not known where this would need it",
    };

    /// <summary>What the likeliest that says otherwise would make it, for a reading that tells two apart.</summary>
    private static string Instead(LocatedReceiver located, Clue clue, int hypothesis, Prediction says, Typography typography)
    {
        if (clue.Kind == ClueKind.Level || !says.IsNormal)
        {
            return "";
        }

        foreach (int other in located.Ranked.Take(200))
        {
            Prediction its = located.Weighed.Case.PredictionOf(clue, located.Weighed.Hypotheses[other]);
            if (other != hypothesis && its.IsNormal && Math.Abs(its.Mean - says.Mean) > says.Sigma)
            {
                Hypothesis h = located.Weighed.Hypotheses[other];
                string what = LocateWords.ShortPlace(h.Place, located.NameOf(h.Place, h.Index), located.Findings.Name);
                return clue.Kind == ClueKind.Offset
                    ? $", {what} {Hertz(its.Mean, typography)}"
                    : $", {what} {Figures.Db(its.Mean, typography)}";
            }
        }

        return "";
    }

    private static string Moments(LogCounts counts, bool other, Typography typography)
    {
        if (other)
        {
            return $"heard at {Of(counts.UnknownHeard, counts.Unknown, typography)}, whoever was on";
        }

        List<string> parts = [];
        if (counts.On > 0)
        {
            parts.Add($"heard at {Of(counts.OnHeard, counts.On, typography)} with all of its emitters on");
        }

        if (counts.Off > 0)
        {
            parts.Add($"heard at {Of(counts.OffHeard, counts.Off, typography)} with one of them off");
        }

        return parts.Count > 0 ? string.Join(", ", parts) : "it says nothing of these emitters";
    }

    private static string Of(int heard, int of, Typography typography) =>
        $"{Figures.Count(heard, typography)} of {Figures.Count(of, typography)}";

    private static string At(LocatedReceiver located, PadInLine pad) =>
        pad.FirstStageBehind == 0 ? "in line at the antenna"
        : pad.FirstStageBehind == located.Findings.Chain.ActiveStages.Count - 1 ? "in line between amplifier and receiver"
        : $"in line in front of {located.Findings.Chain.ActiveStages[pad.FirstStageBehind].Name}";

    private static string Emitter(LocatedReceiver located, int emitter) => located.Findings.Carriers[emitter].Emitter;

    private static string Fell(double db, Typography typography) =>
        db < 0 ? $"rose by {Db(-db, typography)}" : $"fell by {Db(db, typography)}";

    private static string Fall(double db, Typography typography) => Figures.Rounded(db) < 0
        ? $"rise by {Figures.Db(-db, typography)}"
        : $"fall by {Figures.Db(db, typography)}";

    private static string Db(double db, Typography typography) => $"{Figures.Db(db, typography)}{typography.Space}dB";

    private static string Figure(double db, Typography typography) =>
        db.ToString("0.##", CultureInfo.InvariantCulture) + typography.Space + "dB";

    private static string Hertz(double hertz, Typography typography)
    {
        long whole = (long)Math.Round(hertz);
        return (whole < 0 ? typography.Minus : "") + Figures.Count(Math.Abs(whole), typography) + typography.Space + "Hz";
    }

    /// <summary>So many moments of a log: <c>1 moment</c>, <c>1 202 moments</c>.</summary>
    internal static string InWords(long moments, Typography typography) =>
        Figures.Count(moments, typography) + (moments == 1 ? " moment" : " moments");
}
