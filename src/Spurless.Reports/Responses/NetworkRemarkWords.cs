using System.Globalization;
using Spurless.Circuits.Measured;
using Spurless.Radio.Quantities;
using Spurless.Reports.Text;

namespace Spurless.Reports.Responses;

/// <summary>What must stand beside the figures of a network, in sentences without a capital and a full stop.</summary>
public static class NetworkRemarkWords
{
    private const int Named = 3;
    private const string Sparse = "swept too sparsely: ";

    /// <summary>A remark.</summary>
    public static string Of(NetworkRemark remark) => remark switch
    {
        NetworkRemark.GivesOutPower { Passivity: { LargestSingularValue: var value, AtHz: var hertz } } => string.Create(
            CultureInfo.InvariantCulture,
            $"measured as giving out more than it gets (largest singular value {value:0.0000}, {20 * Math.Log10(value):0.00} dB, at "
                + $"{MegahertzText.Of(hertz, 0, 6)} MHz); used as it stands"),
        NetworkRemark.PhaseTurns turn => string.Create(
            CultureInfo.InvariantCulture,
            $"{Sparse}the phase of {Parameter(turn.OfTransmission)} turns by {turn.Degrees:0} degrees from {Megahertz(turn.FromHz)} "
                + $"to {Megahertz(turn.ToHz)} MHz, so between these points the curve is {turn.UncertainDb:0.0} dB uncertain; sweep in "
                + $"steps of {Kilohertz(turn.StepHz)} kHz there"),
        NetworkRemark.DelayAmbiguous delay => string.Create(
            CultureInfo.InvariantCulture,
            $"{Sparse}the phase of {Parameter(delay.OfTransmission)} turns by up to {delay.Degrees:0} degrees from point to point, so "
                + $"delays are ambiguous by whole turns; sweep in smaller steps"),
        NetworkRemark.NarrowNotches { Notches: { } notches } narrow =>
            $"{Sparse}a notch narrower than the steps {string.Join(", ", notches.Take(Named).Select(Notch))}"
                + (notches.Length > Named ? string.Create(CultureInfo.InvariantCulture, $" and {notches.Length - Named} more") : "")
                + $"; its depth and place, and the loss between these points, are not known; sweep in steps of {Kilohertz(narrow.StepHz)} "
                + "kHz there",
        NetworkRemark.TurnsTooOften =>
            "the response turns more often than is told apart, as that of a line of kilometres does: no pass-band and no notches are told",
        NetworkRemark.LeakageDecides leakage => string.Create(
            CultureInfo.InvariantCulture, $"beyond {leakage.LossDb:0} dB what leaks round an unscreened circuit decides"),
        _ => throw new ArgumentOutOfRangeException(nameof(remark)),
    };

    private static string Notch(NarrowNotch n) => n.ToHz is { } to
        ? string.Create(
            CultureInfo.InvariantCulture,
            $"between {Megahertz(n.FromHz)} and {Megahertz(to)} MHz ({Loss(n.LossDb)} and {Loss(n.BehindDb)} dB)")
        : string.Create(
            CultureInfo.InvariantCulture,
            $"at {Megahertz(n.FromHz)} MHz ({Loss(n.LossDb)} dB there, {Loss(n.BeforeDb ?? n.BehindDb)} and {Loss(n.BehindDb)} dB beside)");

    private static string Loss(double db) => FixedText.Of(db, 0);

    private static string Parameter(bool ofTransmission) => ofTransmission ? "S21" : "S11";

    private static string Megahertz(double hertz) => MegahertzText.InWords(hertz);

    // Down to one digit, so that the steps suffice.
    private static string Kilohertz(double hertz)
    {
        double digit = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(hertz, 1)))), rounded = Math.Max(1, Math.Floor(hertz / digit)) * digit;
        return (rounded / 1e3).ToString("0.###", CultureInfo.InvariantCulture);
    }
}
