using Spurless.Design.Questions;

namespace Spurless.Design.Tests.Designing;

/// <summary>The requirement of the invented demo site, demo/filters/quiet-input.requirement.yaml, with parts of a bench.</summary>
internal static class DemoRequirement
{
    public static DesignQuestion Question { get; } = new()
    {
        Name = "quiet the repeater's input (invented)",
        PassFromHz = 144.9e6,
        PassToHz = 145.2e6,
        MostLossDb = 3.5,
        LeastReturnLossDb = 12,
        Reject = [new(153.35e6, 153.35e6, 18), new(157.5e6, 157.5e6, 25), new(160.525e6, 160.525e6, 30), new(459e6, 467e6, 50)],
        Parts = new PartLimits
        {
            InductorQ = new(180, 146e6),
            CapacitorQ = new(500, 146e6),
            InductorsH = (8e-9, 300e-9),
            CapacitorsF = (0.5e-12, 100e-12),
            Series = 24,
        },
        Samples = 1000,
        TunedSpecimens = 40,
        MostCandidates = 4,
    };
}
