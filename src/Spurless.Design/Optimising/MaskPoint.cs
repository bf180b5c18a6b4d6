namespace Spurless.Design.Optimising;

/// <summary>What a demand asks for.</summary>
public enum DemandKind
{
    /// <summary>At most so much insertion loss.</summary>
    PassLoss,

    /// <summary>At least so much return loss at port 1.</summary>
    ReturnLoss,

    /// <summary>At least so much insertion loss.</summary>
    Rejection,
}

/// <summary>One demand at one frequency.</summary>
/// <param name="Frequency">Number of the frequency.</param>
/// <param name="Kind">What is asked.</param>
/// <param name="NeededDb">How much, in dB of loss.</param>
internal readonly record struct MaskPoint(int Frequency, DemandKind Kind, double NeededDb)
{
    /// <summary>
    /// What a decibel counts: one of loss in the pass-band is dearer than one of rejection, for builds scatter by less there. Margins are
    /// compared
    /// in these units alone while a circuit is optimised; whether a demand is met does not depend on them.
    /// </summary>
    public double Weight => Kind switch { DemandKind.PassLoss => 4, DemandKind.ReturnLoss => 1.2, _ => 1 };
}
