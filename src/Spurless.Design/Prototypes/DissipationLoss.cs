namespace Spurless.Design.Prototypes;

/// <summary>
/// Loss in the middle of a band-pass filter of resonators of finite Q: <c>4.343 sum(g1..gn) f0 / (BW Qu)</c> dB (S. B. Cohn, 'Dissipation
/// loss in
/// multiple-coupled-resonator filters', Proc. IRE 47, 1959; from memory). An estimate for small losses, true within a tenth up to about 3
/// dB; unequal Q
/// average by their g.
/// </summary>
public static class DissipationLoss
{
    /// <summary>4.343: decibels in half a neper.</summary>
    public const double DbPerHalfNeper = 10 / 2.302585092994046;

    /// <summary>The loss in dB.</summary>
    /// <param name="prototype">The prototype.</param>
    /// <param name="width">Relative bandwidth between its edges, above 0.</param>
    /// <param name="unloadedQ">Unloaded Q of the resonators.</param>
    public static double Db(Prototype prototype, double width, double unloadedQ)
    {
        ArgumentNullException.ThrowIfNull(prototype);
        return DbPerHalfNeper * prototype.Sum / (width * unloadedQ);
    }

    /// <summary>The unloaded Q with which the loss is so much.</summary>
    /// <param name="prototype">The prototype.</param>
    /// <param name="width">Relative bandwidth between its edges, above 0.</param>
    /// <param name="lossDb">Loss in dB, above 0.</param>
    public static double QualityFor(Prototype prototype, double width, double lossDb)
    {
        ArgumentNullException.ThrowIfNull(prototype);
        return DbPerHalfNeper * prototype.Sum / (width * lossDb);
    }
}
