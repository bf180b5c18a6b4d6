using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Fit;

/// <summary>What of a two-port's scattering a trace of a sweep shows.</summary>
internal static class TraceOf
{
    /// <summary>One of the S-parameters.</summary>
    public static Complex Pick(in ScatteringMatrix s, SweepParameter parameter) => parameter switch
    {
        SweepParameter.S11 => s.S11,
        SweepParameter.S22 => s.S22,
        SweepParameter.S12 => s.S12,
        _ => s.S21,
    };

    /// <summary>How often a port's delay stands in an S-parameter.</summary>
    public static int Times(SweepParameter parameter, int port) => parameter switch
    {
        SweepParameter.S11 => port == 0 ? 2 : 0,
        SweepParameter.S22 => port == 1 ? 2 : 0,
        _ => 1,
    };
}
