using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;
using Spurless.Circuits.Tolerance;
using Spurless.Design.Families;
using Spurless.Design.Layout;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;
using Spurless.Design.Tuning;
using Spurless.Design.Winding;

namespace Spurless.Design.Designing;

/// <summary>Makes a candidate of a blueprint that was optimised: real values, coils, check, and what is to be known of it.</summary>
internal static class CandidateFinish
{
    private const int Span = 17;
    private const int WideBands = 41;
    private const int CloseBands = 81;
    private const int WindingRounds = 2;
    private const double MostQualityFactor = 8;

    // Classes of the trade: what a capacitor bears in volts and watts, a coil in watts (common practice).
    private static readonly double[] _volts = [50, 100, 250, 500, 1000, 2000];
    private static readonly double[] _capacitorWatts = [0.25, 0.5, 1, 2, 5];
    private static readonly double[] _coilWatts = [1, 2, 5, 10];

    /// <summary>Rounds, winds and checks; null where the circuit comes to nothing.</summary>
    public static DesignCandidate? Finish(Blueprint blueprint, DesignQuestion question, CancellationToken cancellation)
    {
        Dictionary<string, WoundCoil>? coils = null;
        bool Wind(Blueprint of)
        {
            if (Windings.Wind(of, question) is not { } wound)
            {
                return false;
            }

            (blueprint, coils) = wound;
            return true;
        }

        if ((question.Parts.InductorQ is not null && !Wind(blueprint)) || RealCircuit.Of(blueprint, question, coils) is not { } real)
        {
            return null;
        }

        MaskGrid grid = MaskGrid.Of(question, Span);
        MaskDescent descent = new(new MaskModel(real.Solver, grid, real.Variables));
        double[] x = real.Start, low = [.. real.Low], high = [.. real.High];
        descent.Run(x, low, high, 12, 10);
        if (question.Parts.Series is { } series)
        {
            SeriesRounding.Run(real, descent, ref x, low, high, series, cancellation);
        }

        descent.Run(x, low, high, 12, 12);
        for (int round = 0; round < WindingRounds && coils is not null; round++)
        {
            if (!Wind(real.With(Designer.Values(real, x))) || RealCircuit.Of(blueprint, question, coils) is not { } again)
            {
                return null;
            }

            real = again;
            descent = new(new MaskModel(real.Solver, grid, real.Variables));
            x = real.Start;
            descent.Run(x, low, high, 8, 10);
        }

        Blueprint final = Written(real.With(Designer.Values(real, x)), question);
        final = coils is null ? final : Windings.Settled(final, coils, question.CentreHz);
        if (RealCircuit.Of(final, question, coils) is not { } last || DenseCheck.Run(last.Solver, question) is not { } findings)
        {
            return null;
        }

        return new DesignCandidate
        {
            Family = final.Family,
            Circuit = last.Solver.Circuit,
            Findings = findings,
            Meets = findings.All(static f => f.Met),
            Coils = Windings.Made(last.Solver.Circuit, coils, question.CentreHz),
            Spots = final.Spots,
            Build = LineFilters.Resonators(question.CentreHz).FirstOrDefault(
                k => final.Family.EndsWith(k.Words, StringComparison.Ordinal))?.Build,
        };
    }

    /// <summary>Yield, power and alignment of a candidate.</summary>
    public static DesignCandidate Look(DesignCandidate candidate, DesignQuestion question, CancellationToken cancellation)
    {
        (DesignCandidate rated, StressResult? stress) = Rate(candidate, question);
        CircuitSolver solver = CircuitSolver.Create(rated.Circuit);
        double f0 = question.CentreHz, low = Math.Min(question.PassFromHz,
            question.Reject.Select(static r => r.FromHz).DefaultIfEmpty(f0).Min()) / 1.05;
        double high = Math.Max(question.PassToHz, question.Reject.Select(static r => r.ToHz).DefaultIfEmpty(f0).Max()) * 1.05;
        ToleranceResult? spread = ToleranceAnalysis.TryRun(
            solver,
            new ToleranceRequest
            {
                Samples = question.Samples,
                FrequenciesHz = BandFrequencies(low, high, f0),
                Mask = MaskGrid.Lines(question),
                Threads = 1,
            },
            out _,
            cancellation: CancellationToken.None); // Tens of milliseconds: a candidate that is looked at is looked at whole.
        TunedYieldResult? tuned = TunedYield.Run(solver, rated.Spots, question, rated.WeightedMargin > -0.5, cancellation);
        return rated with
        {
            Tolerance = spread,
            Tuned = tuned,
            Stress = stress,
            BearsW = stress?.SafePowerW,
            GivesFirst = stress?.GivesFirst,
            Steps = TuningProcedure.Of(rated.Circuit, rated.Spots, tuned is null ? [] : [.. tuned.Trimmers.Select(static t => t.Part)],
                question),
            Strays = LayoutHints.Strays(rated.Circuit, rated.Coils),
        };
    }

    // Coarse over all that is asked, fine about the pass-band, where a builder looks.
    private static double[] BandFrequencies(double low, double high, double f0) =>
    [
        .. Enumerable.Range(0, WideBands).Select(i => low * Math.Pow(high / low, i / (WideBands - 1.0)))
            .Concat(Enumerable.Range(0, CloseBands).Select(i => f0 * (0.88 + (0.24 * i / (CloseBands - 1)))))
            .Where(f => f >= low && f <= high).Distinct().Order(),
    ];

    /// <summary>The candidate with the Q of coils that it would take, sought by optimising its free values anew with better and better
    /// coils.</summary>
    public static DesignCandidate WithQualityWanted(DesignCandidate candidate, DesignQuestion question, CancellationToken cancellation)
    {
        if (question.Parts.InductorQ is not { } have || candidate.Findings.All(static f => f.Met))
        {
            return candidate;
        }

        double low = 1, high = MostQualityFactor;
        if (!Meets(high))
        {
            return candidate;
        }

        while (high / low > 1.03 && !cancellation.IsCancellationRequested)
        {
            double middle = Math.Sqrt(low * high);
            (low, high) = Meets(middle) ? (low, middle) : (middle, high);
        }

        return candidate with { QualityWouldMeet = have.Q * high };

        bool Meets(double factor)
        {
            DesignQuestion better = question with { Parts = question.Parts with { InductorQ = have with { Q = have.Q * factor } } };
            Blueprint blueprint = new(
                candidate.Family, candidate.Circuit with
                {
                    Parts = [.. candidate.Circuit.Parts.Where(
                static p => p.Name != RealCircuit.BypassName)]
                }, candidate.Spots);
            if (RealCircuit.Of(blueprint, better, candidate.Coils.ToDictionary(static c => c.Part)) is not { } real)
            {
                return false;
            }

            double[] x = real.Start;
            return new MaskDescent(new MaskModel(real.Solver, MaskGrid.Of(question, Span), real.Variables))
                .Run(x, real.Low, real.High, 25, 12, enough: 0) >= 0;
        }
    }

    // Values as they are written: so many digits that the file is the circuit that was checked.
    private static Blueprint Written(Blueprint blueprint, DesignQuestion question)
    {
        Part Round(Part part) => part switch
        {
            Inductor l => RealCircuit.WithValue(l, Digits(l.Inductance.Require(), 5)),
            Capacitor c when question.Parts.Series is { } series => RealCircuit.WithValue(
                c, Circuits.Series.ESeries.Nearest(c.Capacitance.Require(), series)),
            Capacitor c => RealCircuit.WithValue(c, Digits(c.Capacitance.Require(), 4)),
            Resistor r => RealCircuit.WithValue(r, Circuits.Series.ESeries.Nearest(r.Resistance.Require(), 24)),
            Coupling m => RealCircuit.WithValue(m, Digits(m.Coefficient.Require(), 4)),
            Line w => RealCircuit.WithValue(w, Digits(w.Length.Require(), 5)),
            Stub w => RealCircuit.WithValue(w, Digits(w.Length.Require(), 5)),
            _ => part,
        };
        return blueprint with { Circuit = blueprint.Circuit with { Parts = [.. blueprint.Circuit.Parts.Select(Round)] } };
    }

    internal static double Digits(double value, int digits) =>
        double.Parse(value.ToString("E" + (digits - 1).ToString(System.Globalization.CultureInfo.InvariantCulture),
            System.Globalization.CultureInfo.InvariantCulture), System.Globalization.CultureInfo.InvariantCulture);

    // With a power asked for each part gets the class of the trade that bears it; without one the usual limits of unrated parts say what it
    // bears.
    private static (DesignCandidate Candidate, StressResult? Worst) Rate(DesignCandidate candidate, DesignQuestion question)
    {
        double power = question.TransmitW ?? 1;
        double[] frequencies = [question.PassFromHz, question.CentreHz, question.PassToHz];
        StressResult[] all = Stress(candidate.Circuit);
        if (question.TransmitW is not null && all.Length > 0)
        {
            List<Part> parts = [];
            foreach (Part part in candidate.Circuit.Parts)
            {
                PartStress[] borne = [.. all.Select(a => a.Parts.FirstOrDefault(p => p.Part == part.Name)).OfType<PartStress>()];
                double volts = 1.3 * borne.Select(static b => b.PeakVoltageV).DefaultIfEmpty(0).Max(),
                    watts = 1.3 * borne.Select(static b => b.DissipationW).DefaultIfEmpty(0).Max();
                parts.Add(part switch
                {
                    Capacitor => part with
                    {
                        Rated = new PartRating(PeakVoltageV: Class(_volts, volts),
                        PowerW: Class(_capacitorWatts, watts))
                    },
                    Inductor => part with { Rated = new PartRating(PowerW: Class(_coilWatts, watts)) },
                    _ => part,
                });
            }

            candidate = candidate with { Circuit = candidate.Circuit with { Parts = parts } };
            all = Stress(candidate.Circuit);
            candidate = candidate with
            {
                Meets = candidate.Meets && all.Length == frequencies.Length
                && all.All(static a => a.MayTransmit)
            };
        }

        return (candidate, all.Where(static a => a.SafePowerW is not null).MinBy(static a => a.SafePowerW) ?? all.FirstOrDefault());

        StressResult[] Stress(Circuit circuit)
        {
            CircuitSolver solver = CircuitSolver.Create(circuit);
            return [.. frequencies.Select(f => StressAnalysis.TryRun(solver, new StressRequest(power, f, StressLoad.Matched), out _))
                .OfType<StressResult>()];
        }
    }

    private static double Class(double[] classes, double needed) => classes.FirstOrDefault(c => c >= needed, classes[^1]);
}
