using System.Globalization;
using Spurless.Radio.Quantities;
using Spurless.Workbench.Desk;

namespace Spurless.Pages.Bench;

/// <summary>What the bench page shows, as it stands in the address.</summary>
/// <param name="Site">The site whose needs are the mask; empty for none, null for the choice of the page.</param>
/// <param name="Receiver">Index of its receiver.</param>
/// <param name="Sweep">The sweep laid over; null for none.</param>
/// <param name="Beside">Another circuit or sweep laid beside; null for none.</param>
/// <param name="Part">The selected part; null for the first that can be moved.</param>
/// <param name="Settings">What was moved and not kept.</param>
/// <param name="SpreadPercent">Tolerance of parts that state none, in per cent; 0 shows no band.</param>
/// <param name="PowerW">Power that would be transmitted through it, in watts; null for the choice of the page.</param>
/// <param name="TransmitHz">Its frequency in hertz; null for the choice of the page.</param>
/// <param name="Swr">Standing wave ratio of the load; 1 for the reference.</param>
internal sealed record BenchAddress(
    string? Site, int Receiver, string? Sweep, string? Beside, string? Part, DeskSettings Settings, double SpreadPercent, double? PowerW,
    double? TransmitHz, double Swr)
{
    /// <summary>The query of the address; what is as the page would choose it is left out.</summary>
    public IReadOnlyDictionary<string, object?> Query() => new Dictionary<string, object?>
    {
        ["site"] = Site,
        ["receiver"] = Receiver == 0 ? null : Receiver,
        ["sweep"] = Sweep,
        ["beside"] = Beside,
        ["part"] = Part,
        ["set"] = Settings.IsEmpty ? null : Settings.ToString(),
        ["spread"] = SpreadPercent == 0 ? null : Number(SpreadPercent),
        ["power"] = PowerW is { } power ? Number(power) : null,
        ["at"] = TransmitHz is { } hertz ? Number(hertz / 1e6) : null,
        ["swr"] = Swr == 1 ? null : Number(Swr),
    };

    /// <summary>Reads an address; what cannot be read is as if it were left out.</summary>
    public static BenchAddress Of(Func<string, string?> query) => new(
        query("site"),
        int.TryParse(query("receiver"), NumberStyles.None, CultureInfo.InvariantCulture, out int receiver) ? receiver : 0,
        query("sweep") is { Length: > 0 } sweep ? sweep : null,
        query("beside") is { Length: > 0 } beside ? beside : null,
        query("part") is { Length: > 0 } part ? part : null,
        DeskSettings.Parse(query("set")),
        Positive(query("spread"), 50) ?? 0,
        Positive(query("power"), 1e6),
        Positive(query("at"), 1e6) * 1e6,
        Positive(query("swr"), 1e3) is { } swr and >= 1 ? swr : 1);

    /// <summary>Reads a power as typed.</summary>
    public static bool TryPower(string text, out double watts, out string problem)
    {
        bool good = Power.TryParse(text, out Power power, out problem);
        watts = good ? power.Watts : 0;
        problem = good && watts <= 0 ? $"'{text.Trim()}' is no power above 0; write one such as 25 W" : problem;
        return good && watts > 0;
    }

    private static double? Positive(string? text, double most) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value > 0 && value <= most
            ? value
            : null;

    private static string Number(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
