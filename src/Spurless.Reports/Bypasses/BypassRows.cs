using System.Globalization;
using Spurless.Circuits.Relays;
using Spurless.Circuits.Stress;
using Spurless.Drawing.Words;
using Spurless.Sites.Bypasses;

namespace Spurless.Reports.Bypasses;

/// <summary>A figure with the name it has in the CSV.</summary>
/// <param name="Quantity">Its name there.</param>
/// <param name="What">What it is.</param>
/// <param name="Value">In SI, or dB; null where it is not known.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Text">The figure as it is shown.</param>
public sealed record BypassRow(string Quantity, string What, double? Value, string Unit, string Text);

/// <summary>What stands in the way when something fails.</summary>
/// <param name="What">What fails.</param>
/// <param name="InTheWay">What then stands in the way.</param>
/// <param name="Hot">What gets hot.</param>
/// <param name="FilterInTheWay">Whether the transmitter works into the filter.</param>
public sealed record FailureRow(string What, string InTheWay, string Hot, bool FilterInTheWay);

/// <summary>The tables of a bypass relay.</summary>
public static class BypassRows
{
    /// <summary>The figures.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="signs">Signs and spaces.</param>
    public static IReadOnlyList<BypassRow> Figures(BypassAnswer answer, Typography signs)
    {
        ArgumentNullException.ThrowIfNull(answer);
        List<BypassRow> rows =
        [
            Si("operates_at_w", "least steady power that brings it over", answer.OperatesAtW, "W"),
            Si("releases_below_w", "power under which it goes back", answer.ReleasesBelowW, "W"),
            Si("attack_s", "from the start of the carrier to the contacts over", answer.Press.AttackS, "s"),
            Si("hang_s", "from its end to the contacts back", answer.Press.HangS, "s"),
        ];
        if (answer.Document.StandingWaveRatio is > 1)
        {
            rows.Add(Si("operates_at_worst_w", "the least power, tap at a minimum of the standing waves", answer.OperatesAtWorstW, "W"));
            rows.Add(Si("attack_worst_s", "the slowest attack over the standing waves", answer.WorstAttackS, "s"));
            rows.Add(Si("hang_worst_s", "the longest hang over the standing waves", answer.WorstHangS, "s"));
        }

        rows.Add(Si("smoothing_v", "smoothing voltage that stands", answer.Press.SmoothingV, "V"));
        rows.Add(Si("coil_current_a", "coil current that stands", answer.Press.CoilA, "A"));
        rows.Add(Si("coil_needs_a", "coil current that pulls", answer.Document.Circuit.Coil.OperatesA, "A"));
        rows.Add(Db("contact_loss_db", "loss of the closed contacts", answer.Document.ContactLossDb, signs));
        rows.Add(Dbm("strongest_off_air_dbm", "strongest sum off the air that leaves it at rest", answer.StrongestOffAirDbm, signs));
        if (answer.OffAir is { } air)
        {
            rows.Add(Dbm("off_air_sum_dbm", $"the site's {air.Counted} signals there, all in phase", air.SumDbm, signs));
        }

        if (answer.Filter is { } filter)
        {
            string where = filter.Isolation is { } least ? $", least at {Mhz(least.FrequencyHz)}" : ": it has no stop band";
            rows.Add(Db("isolation_db", $"filter with open contacts across it{where}", filter.Isolation?.LossDb, signs));
            if (filter.Isolation is { } alone)
            {
                rows.Add(Db("isolation_alone_db", "the filter alone there", alone.AloneDb, signs));
            }

            rows.Add(Db(
                "isolation_over_db", "filter from the line while the relay is over",
                filter.ShareWhileOver > 0 ? -10 * Math.Log10(filter.ShareWhileOver) : null, signs));
            rows.Add(Si("filter_heat_w", "heat in the filter while it stands in the way", filter.HeatW, "W"));
            rows.Add(Si("filter_energy_j", "energy into it at each press", filter.HeatW * answer.Press.AttackS, "J"));
        }

        return rows;
    }

    /// <summary>What fails, and what then stands in the way.</summary>
    public static IReadOnlyList<FailureRow> Failures(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        string filter = answer.Filter is { WorstHeatW: { } heat } f
            ? $"{BypassWords.Si(heat, "W")} in it"
                + (f.Hottest is { } hot ? $", {BypassWords.Si(hot.DissipationW, "W")} of that in {hot.Part}" : "")
                + (f.BearsW is { } bears && bears < answer.Document.PowerW ? $"; it bears {BypassWords.Si(bears, "W")}" : "")
            : "how hot is not known: no filter is named";
        RelayCircuit circuit = answer.Document.Circuit;
        string coil = $"the coil, {BypassWords.Si(circuit.SupplyV * circuit.SupplyV / circuit.Coil.CoilOhm, "W")} without end; "
            + "the receiver hears unfiltered";
        List<FailureRow> rows =
        [
            new("supply gone", "the filter", filter, true),
            new("relay stuck at rest", "the filter", filter, true),
            new("tap or detector open", "the filter, with no warning", filter, true),
            new("driver shorted, or relay stuck over", "nothing", coil, false),
        ];
        if (answer.OperatesAtW is { } least)
        {
            string few = answer.Filter is { WorstHeatW: { } whole }
                ? $"up to {BypassWords.Si(whole * Math.Min(1, least / answer.Document.PowerW), "W")} in it"
                : "how hot is not known: no filter is named";
            rows.Add(new FailureRow($"power under {BypassWords.Si(least, "W")}", "the filter", few, true));
        }

        return rows;
    }

    /// <summary>Ways to transmit past or through a filter, the power each is right for; each a sentence without a full stop.</summary>
    /// <param name="answer">The answer.</param>
    public static IReadOnlyList<string> Ways(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        List<string> all = [];
        double power = answer.Document.PowerW;
        if (answer.Filter?.BearsW is { } bears)
        {
            all.Add($"through the filter, no relay: its parts bear {BypassWords.Si(bears, "W")}, so {Verdict(bears >= power, power)}");
            double reaches = Reaches(answer), bound = bears / reaches;
            all.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"a circulator, filter at its third port: {reaches * 100:0.#} % of the power reaches the filter (the line's reflection "
                    + $"and {BypassQuestion.CirculatorIsolationDb:0} dB of isolation in phase), so it serves up to "
                    + $"{BypassWords.Si(bound, "W")}: ")
                + Verdict(bound >= power, power)
                + string.Create(CultureInfo.InvariantCulture, $"; it takes about {BypassQuestion.CirculatorLossDb:0.0} dB both ways")
                + " and makes harmonics (isolation and loss: common practice)");
        }

        all.Insert(0, Right(answer));
        all.Add(Sensed(answer));
        all.Add(answer.Keyed.LeadS is { } lead
            ? $"the same relay on the transmitter's own key line: no power may come sooner than "
                + $"{BypassWords.Si(lead, "s")} after the line, "
                + $"and it must be gone within {BypassWords.Si(answer.Keyed.TailS, "s")} of its release (the worst of supply "
                + "10 % under and over and coil at 20 and 60 degrees C); kept so, the filter takes nothing at any "
                + "power that the contacts are rated for"
            : "the same relay on the transmitter's own key line: at the lowest supply and a warm coil it does not pull");
        return all;
    }

    private static string Right(BypassAnswer answer)
    {
        double power = answer.Document.PowerW;
        string at = $"for {BypassWords.Si(power, "W")}: ";
        if (answer.Filter?.BearsW is not { } bears)
        {
            return answer.Keyed.LeadS is null ? at + "none that can be told" : at + "the transmitter's own key line; of the rest nothing "
                + "can be told, for what the filter bears is not known";
        }

        return at + (bears >= power ? "through the filter"
            : bears / Reaches(answer) >= power ? "a circulator"
            : SensedServes(answer) ? "the relay that the radio frequency switches"
            : answer.Keyed.LeadS is not null ? "the transmitter's own key line"
            : "none of these as they stand");
    }

    // Share of the power that comes out at a circulator's third port: reflection and leakage in phase.
    private static double Reaches(BypassAnswer answer)
    {
        double amplitude = answer.Document.Reflection + Math.Pow(10, -BypassQuestion.CirculatorIsolationDb / 20);
        return Math.Min(1, amplitude * amplitude);
    }

    private static bool SensedServes(BypassAnswer answer) => answer.OperatesAtWorstW is { } least && answer.Document.PowerW >= least
        && answer.Filter?.VoltageBearsW is { } bound && bound >= answer.Document.PowerW && !answer.Trials.Any(static t => t.Chatters);

    /// <summary>How much energy each part of the filter takes at a press; empty where it is not known.</summary>
    public static IReadOnlyList<(PartStress Matched, PartStress Worst, double? EnergyJ, double? WorstEnergyJ)> Parts(BypassAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (answer.Filter?.Stress is not { } matched)
        {
            return [];
        }

        double? slowest = answer.Filter.WorstStress is null ? answer.Press.AttackS : answer.WorstAttackS;
        return
        [
            .. matched.Parts.Zip((answer.Filter.WorstStress ?? matched).Parts)
                .Select(p => (p.First, p.Second, p.First.DissipationW * answer.Press.AttackS, p.Second.DissipationW * slowest)),
        ];
    }

    private static string Sensed(BypassAnswer answer)
    {
        if (answer.OperatesAtW is not { } least)
        {
            return "the relay that the radio frequency switches: not as it stands, it never comes over";
        }

        string from = $"the relay that the radio frequency switches: from {BypassWords.Si(answer.OperatesAtWorstW ?? least, "W")} on";
        if (answer.Filter?.VoltageBearsW is not { } bound)
        {
            return from + "; what the filter bears until then is not known";
        }

        bool serves = bound >= answer.Document.PowerW && answer.Document.PowerW >= (answer.OperatesAtWorstW ?? least);
        string chatter = serves && answer.Trials.Any(static t => t.Chatters) ? ", with a hang that stops the chatter" : "";
        return from + $", up to {BypassWords.Si(bound, "W")}, where the voltage in the filter passes what a part is rated for at once, "
            + $"however quick the relay: {Verdict(serves, answer.Document.PowerW)}{chatter}";
    }

    private static string Verdict(bool serves, double power) =>
        serves ? $"it serves at {BypassWords.Si(power, "W")}" : $"not for {BypassWords.Si(power, "W")}";

    private static string Mhz(double hertz) => Radio.Quantities.MegahertzText.InWords((long)Math.Round(hertz)) + " MHz";

    private static BypassRow Si(string quantity, string what, double? value, string unit) =>
        new(quantity, what, value, unit, BypassWords.SiOr(value, unit));

    private static BypassRow Db(string quantity, string what, double? value, Typography signs) =>
        new(quantity, what, value, "dB", value is { } db ? $"{Drawing.Words.Figures.Db(db, signs)} dB" : "-");

    private static BypassRow Dbm(string quantity, string what, double? value, Typography signs) =>
        new(quantity, what, value, "dBm", value is { } dbm ? $"{Drawing.Words.Figures.Db(dbm, signs)} dBm" : "-");
}
