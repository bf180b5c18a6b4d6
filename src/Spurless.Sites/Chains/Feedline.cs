using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Sites.Chains;

/// <summary>A matched feedline whose loss is known over frequency.</summary>
/// <param name="Name">The stage as the tables name it.</param>
/// <param name="LossDb">Loss in dB at a frequency in hertz.</param>
internal sealed record Feedline(string Name, Func<double, double> LossDb) : IPassiveStage
{
    public bool IsFilter => false;

    public ScatteringMatrix At(double frequencyHz) => Matched(-LossDb(frequencyHz));

    public bool Covers(double frequencyHz) => true;

    /// <summary>A matched, reciprocal two-port of a given gain in dB; its phase does not matter between matched stages.</summary>
    internal static ScatteringMatrix Matched(double gainDb)
    {
        Complex through = Math.Pow(10, gainDb / 20);
        return new ScatteringMatrix(Complex.Zero, through, through, Complex.Zero);
    }
}

/// <summary>A matched attenuator, or the selectivity of a receiver: a loss in dB over frequency.</summary>
/// <param name="Name">The stage as the tables name it.</param>
/// <param name="LossDb">Loss in dB at a frequency in hertz.</param>
internal sealed record Pad(string Name, Func<double, double> LossDb) : IPassiveStage
{
    public bool IsFilter => false;

    public ScatteringMatrix At(double frequencyHz) => Feedline.Matched(-LossDb(frequencyHz));

    public bool Covers(double frequencyHz) => true;
}
