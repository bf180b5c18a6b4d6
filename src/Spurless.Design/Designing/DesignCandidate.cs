using Spurless.Circuits.Parts;
using Spurless.Circuits.Stress;
using Spurless.Circuits.Tolerance;
using Spurless.Design.Families;
using Spurless.Design.Layout;
using Spurless.Design.Optimising;
using Spurless.Design.Tuning;
using Spurless.Design.Winding;

namespace Spurless.Design.Designing;

/// <summary>A circuit that was designed.</summary>
public sealed record DesignCandidate
{
    /// <summary>What it is in words of the trade.</summary>
    public required string Family { get; init; }

    /// <summary>The circuit: capacitors of the series, coils by their inductance, all with losses and tolerances.</summary>
    public required Circuit Circuit { get; init; }

    /// <summary>How it stands to each demand, on the dense grid: the pass-band first.</summary>
    public required IReadOnlyList<DemandFinding> Findings { get; init; }

    /// <summary>Whether it meets all of it as drawn, and bears the power asked for.</summary>
    public required bool Meets { get; init; }

    /// <summary>Greatest insertion loss in the pass-band, in dB.</summary>
    public double WorstPassLossDb => Findings[0].AchievedDb;

    /// <summary>What is least to spare of any demand in dB; below 0 where one is not met.</summary>
    public double WorstMarginDb => Findings.Min(static f => f.MarginDb);

    /// <summary>What is least to spare, decibels of loss counting more than those of rejection: what candidates are compared by.</summary>
    public double WeightedMargin => Findings.Min(static f => f.MarginDb * new MaskPoint(0, f.Kind, 0).Weight);

    /// <summary>The coils as they are wound; a coil that no stated rod and wire gives is missing.</summary>
    public required IReadOnlyList<WoundCoil> Coils { get; init; }

    /// <summary>What is aligned in it.</summary>
    public required IReadOnlyList<TuningSpot> Spots { get; init; }

    /// <summary>What the tolerances do to it, with the yield as built; null while it has not been looked at.</summary>
    public ToleranceResult? Tolerance { get; init; }

    /// <summary>The yield after tuning; null while it has not been looked at.</summary>
    public TunedYieldResult? Tuned { get; init; }

    /// <summary>Power in watts at which its first part reaches a usual limit (or its stated rating); null where no part has one.</summary>
    public double? BearsW { get; init; }

    /// <summary>That part and limit in words; null where no part has one.</summary>
    public PartStress? GivesFirst { get; init; }

    /// <summary>What that power, or one watt where none was asked for, does to its parts, at the worst of edges and middle of the
    /// pass-band; null while it has not been looked at.</summary>
    public StressResult? Stress { get; init; }

    /// <summary>The steps that align it; empty where there is nothing to.</summary>
    public IReadOnlyList<TuningStep> Steps { get; init; } = [];

    /// <summary>Stray coupling of its coils.</summary>
    public IReadOnlyList<StrayCoupling> Strays { get; init; } = [];

    /// <summary>Line resonators: how each is built; null for a filter of coils.</summary>
    public ResonatorBuild? Build { get; init; }

    /// <summary>Unloaded Q of the coils with which it would meet the requirement, by the optimiser; null where it meets it, or no Q up to
    /// eight times as high does.</summary>
    public double? QualityWouldMeet { get; init; }

    /// <summary>Coils that none of the stated rods and wires gives; 0 where no winding was asked for, the parts being lossless.</summary>
    public int UnwoundCoils => Circuit.Parts.Count(p => p is Inductor { Loss: not null }
        && !Coils.Any(c => c.Part == p.Name || c.Tap?.LowerPart == p.Name));

    /// <summary>Whether lines are in it: cable, helices, cavities.</summary>
    public bool UsesLines => Circuit.Parts.Any(static p => p is Line or Stub);

    /// <summary>Number of entries in the circuit's list of parts.</summary>
    public int PartCount => Circuit.Parts.Count;
}
