using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Requirements;

/// <summary>What a line of a mask asks for.</summary>
public enum MaskDemand
{
    /// <summary>At most so much insertion loss.</summary>
    PassLoss,

    /// <summary>At least so much return loss at port 1.</summary>
    ReturnLoss,

    /// <summary>At least so much insertion loss.</summary>
    Rejection,
}

/// <summary>How a response stands to one demand of a mask, at the frequency where it stands worst.</summary>
/// <param name="Line">The line.</param>
/// <param name="Demand">Which of its demands.</param>
/// <param name="WorstHz">The frequency in hertz where least is to spare.</param>
/// <param name="NeededDb">What is asked for, in dB of loss.</param>
/// <param name="AchievedDb">What the response has there, in dB of loss.</param>
public sealed record MaskFinding(MaskLine Line, MaskDemand Demand, double WorstHz, double NeededDb, double AchievedDb)
{
    /// <summary>What is to spare in dB; below 0 where the demand is not met.</summary>
    public double MarginDb => Demand == MaskDemand.PassLoss ? NeededDb - AchievedDb : AchievedDb - NeededDb;

    /// <summary>Whether it is met.</summary>
    public bool Met => MarginDb >= 0;
}

/// <summary>Holds a network against a mask. A span is looked at in <see cref="MaskLine.PointsOfSpan"/> points, edges included.</summary>
public static class MaskCheck
{
    private const double MostDb = 400;

    /// <summary>One finding for each demand, in the order of the mask.</summary>
    /// <param name="network">The network; it must cover the mask's frequencies.</param>
    /// <param name="mask">The mask.</param>
    public static IReadOnlyList<MaskFinding> Run(ITwoPort network, IReadOnlyList<MaskLine> mask)
    {
        ArgumentNullException.ThrowIfNull(network);
        ArgumentNullException.ThrowIfNull(mask);
        List<MaskFinding> all = [];
        foreach (MaskLine line in mask)
        {
            (double Hz, double Loss, double Match)[] points = [.. line.Frequencies().Select(f =>
            {
                ScatteringMatrix s = At(network, f);
                return (f, Db(s.S21.Magnitude), Db(s.S11.Magnitude));
            })];
            void Add(MaskDemand demand, double? needed, Func<(double Hz, double Loss, double Match), double> achieved)
            {
                if (needed is { } db)
                {
                    all.Add(points.Select(p => new MaskFinding(line, demand, p.Hz, db, achieved(p))).MinBy(static f => f.MarginDb)!);
                }
            }

            Add(MaskDemand.PassLoss, line.MostLossDb, static p => p.Loss);
            Add(MaskDemand.ReturnLoss, line.LeastReturnLossDb, static p => p.Match);
            Add(MaskDemand.Rejection, line.LeastLossDb, static p => p.Loss);
        }

        return all;
    }

    // A lossless resonance met exactly has no one solution: the limit beside it.
    private static ScatteringMatrix At(ITwoPort network, double hertz)
    {
        try
        {
            return network.At(hertz);
        }
        catch (CircuitException e) when (e.Fault.Kind == CircuitFaultKind.Singular)
        {
            return network.At(hertz * (1 + 1e-9));
        }
    }

    private static double Db(double magnitude) => magnitude > 0 ? Math.Min(MostDb, -20 * Math.Log10(magnitude)) : MostDb;
}
