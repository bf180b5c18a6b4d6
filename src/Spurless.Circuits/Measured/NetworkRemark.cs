using System.Collections.Immutable;

namespace Spurless.Circuits.Measured;

/// <summary>What must stand beside every figure that rests on a network.</summary>
public abstract record NetworkRemark
{
    private NetworkRemark()
    {
    }

    /// <summary>The sweep gives out more power than it gets; it is used as it stands.</summary>
    /// <param name="Passivity">How much, and where.</param>
    public sealed record GivesOutPower(Passivity Passivity) : NetworkRemark;

    /// <summary>Swept too sparsely: the phase turns so far from one point to the next that the curve between is not known well.</summary>
    /// <param name="OfTransmission">Whether S21 turns so; S11 if not.</param>
    /// <param name="Degrees">The greatest turn, a line's delay taken out.</param>
    /// <param name="FromHz">The point before it, in hertz.</param>
    /// <param name="ToHz">The point behind it, in hertz.</param>
    /// <param name="UncertainDb">How far the curve between them is open, in dB.</param>
    /// <param name="StepHz">Steps that would do, in hertz.</param>
    public sealed record PhaseTurns(bool OfTransmission, double Degrees, double FromHz, double ToHz, double UncertainDb, double StepHz)
        : NetworkRemark;

    /// <summary>Swept too sparsely: the phase turns by so much from point to point that delays are ambiguous by whole turns.</summary>
    /// <param name="OfTransmission">Whether S21 turns so; S11 if not.</param>
    /// <param name="Degrees">The greatest turn.</param>
    public sealed record DelayAmbiguous(bool OfTransmission, double Degrees) : NetworkRemark;

    /// <summary>Swept too sparsely: there are notches narrower than the steps.</summary>
    /// <param name="Notches">Where, rising in frequency, at least one.</param>
    /// <param name="StepHz">Steps that would do, in hertz.</param>
    public sealed record NarrowNotches(ImmutableArray<NarrowNotch> Notches, double StepHz) : NetworkRemark;

    /// <summary>The response turns more often than is told apart: no pass-band and no notches are told.</summary>
    public sealed record TurnsTooOften : NetworkRemark;

    /// <summary>Beyond some loss what leaks round an unscreened circuit decides.</summary>
    /// <param name="LossDb">The loss in dB.</param>
    public sealed record LeakageDecides(double LossDb) : NetworkRemark;
}

/// <summary>A notch narrower than the steps of a sweep: on a point, or between two.</summary>
/// <param name="FromHz">The point, or the one before it, in hertz.</param>
/// <param name="ToHz">The point behind it, in hertz; null where it lies on a point.</param>
/// <param name="LossDb">Loss at <paramref name="FromHz"/> in dB.</param>
/// <param name="BeforeDb">Loss at the point before one that it lies on, in dB; null where it lies between two.</param>
/// <param name="BehindDb">Loss at the point behind, in dB.</param>
public readonly record struct NarrowNotch(double FromHz, double? ToHz, double LossDb, double? BeforeDb, double BehindDb);
