namespace Spurless.Design.Questions;

/// <summary>What a filter must do and of what it may be made. SI units; all defaults stand here.</summary>
public sealed record DesignQuestion
{
    /// <summary>What the requirement is called.</summary>
    public required string Name { get; init; }

    /// <summary>Lower edge of what must pass, in hertz.</summary>
    public required double PassFromHz { get; init; }

    /// <summary>Upper edge of what must pass, in hertz; above the lower one.</summary>
    public required double PassToHz { get; init; }

    /// <summary>Most insertion loss anywhere between the edges, in dB; above 0.</summary>
    public required double MostLossDb { get; init; }

    /// <summary>Least return loss at port 1 there, in dB; null for none asked.</summary>
    public double? LeastReturnLossDb { get; init; }

    /// <summary>What must be kept out, in the order asked.</summary>
    public IReadOnlyList<RejectDemand> Reject { get; init; } = [];

    /// <summary>Impedance of both ports in ohms, above 0.</summary>
    public double ImpedanceOhm { get; init; } = 50;

    /// <summary>Which parts may be used.</summary>
    public PartLimits Parts { get; init; } = new();

    /// <summary>Power in watts that the filter must carry in its pass-band; null where it only receives.</summary>
    public double? TransmitW { get; init; }

    /// <summary>Capacitance from port to port that goes round the filter, as of an open bypass contact, in farads; null for none.</summary>
    public double? BypassOpenF { get; init; }

    /// <summary>Half width of the capacitors' even tolerance as a fraction; null for that of their series (IEC 60063: E24 5 %), 5 % without
    /// one.</summary>
    public double? CapacitorTolerance { get; init; }

    /// <summary>Half width of the wound coils' even tolerance as a fraction (5 %: common practice for a coil wound by a drawing).</summary>
    public double InductorTolerance { get; init; } = 0.05;

    /// <summary>Series inductance of a capacitor with its leads or pads, in henries (0.6 nH: common practice for a chip on short
    /// pads).</summary>
    public double CapacitorLeadH { get; init; } = 0.6e-9;

    /// <summary>Seed of all that is drawn.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Samples of the yield as built.</summary>
    public int Samples { get; init; } = 10_000;

    /// <summary>Specimens that are tuned one by one for the yield after tuning.</summary>
    public int TunedSpecimens { get; init; } = 200;

    /// <summary>Most candidates handed back.</summary>
    public int MostCandidates { get; init; } = 8;

    /// <summary>Threads; 0 for as many as there are processors. The answer does not depend on it.</summary>
    public int Threads { get; init; }

    /// <summary>Geometric middle of the pass-band in hertz.</summary>
    public double CentreHz => Math.Sqrt(PassFromHz * PassToHz);

    /// <summary>Unloaded Q of a tank in the middle of the band, infinite without losses: a coil's grows with the root of the frequency, a
    /// capacitor's falls with it (constant series resistance).</summary>
    public double UnloadedQ
    {
        get
        {
            double f0 = CentreHz, sum = 0;
            if (Parts.InductorQ is { } l)
            {
                sum += 1 / (l.Q * Math.Sqrt(f0 / l.AtHz));
            }

            if (Parts.CapacitorQ is { } c)
            {
                sum += 1 / (c.Q * c.AtHz / f0);
            }

            return sum > 0 ? 1 / sum : double.PositiveInfinity;
        }
    }
}

/// <summary>A frequency or span that must be kept out.</summary>
/// <param name="FromHz">Lower edge in hertz.</param>
/// <param name="ToHz">Upper edge in hertz; equal to the lower one for a single frequency.</param>
/// <param name="LeastLossDb">Least insertion loss there in dB, above 0.</param>
public sealed record RejectDemand(double FromHz, double ToHz, double LeastLossDb);

/// <summary>A quality factor at a frequency.</summary>
/// <param name="Q">The quality factor, above 0.</param>
/// <param name="AtHz">The frequency in hertz, above 0.</param>
public sealed record QualityAtFrequency(double Q, double AtHz);

/// <summary>Parts that may be used. What is null is not limited; without a Q parts are taken as lossless.</summary>
public sealed record PartLimits
{
    /// <summary>Quality of inductors.</summary>
    public QualityAtFrequency? InductorQ { get; init; }

    /// <summary>Quality of capacitors.</summary>
    public QualityAtFrequency? CapacitorQ { get; init; }

    /// <summary>Least and greatest inductance in henries.</summary>
    public (double Least, double Greatest)? InductorsH { get; init; }

    /// <summary>Least and greatest capacitance in farads.</summary>
    public (double Least, double Greatest)? CapacitorsF { get; init; }

    /// <summary>Size of the series of preferred values for capacitors (IEC 60063: 3 to 192); null for any value.</summary>
    public int? Series { get; init; }
}
