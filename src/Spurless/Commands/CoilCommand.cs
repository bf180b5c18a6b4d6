using System.CommandLine;
using System.Globalization;
using Spurless.Circuits.Coils;
using Spurless.CommandLine;
using Spurless.Files;
using Spurless.Radio.Quantities;
using Spurless.Reports.Bench;
using Spurless.Sites;
using Spurless.Sites.Coils;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>coil</c>: a coil or resonator from its dimensions, and back.</summary>
internal static class CoilCommand
{
    private const double MostTurns = 1e6;

    public static Command Create(ITerminal terminal)
    {
        Option<double?> turns = OptionKinds.Parsed<double>("--turns", "N", "number of turns, need not be whole", TryTurns);
        Option<Inductance?> inductance = OptionKinds.Parsed<Inductance>(
            "--inductance", "L", "wanted inductance without leads, in place of turns, like \"24 nH\"",
            Above<Inductance>(Inductance.TryParse, static l => l.Henries, "24 nH"));
        Option<Length?> diameter = Dimension("--diameter", "diameter from wire centre to wire centre", "10 mm");
        Option<Length?> former = Dimension("--former", "diameter of the former, in place of --diameter: the wire is added", "9 mm");
        Option<Length?> length = Dimension("--length", "length, which is turns x pitch", "10 mm");
        Option<Length?> wire =
            OptionKinds.Parsed<Length>("--wire", "D", "diameter of the bare wire, like \"1 mm\" or \"18 AWG\"", WireDiameter.TryParse);
        Option<Length?> leads = Dimension("--leads", "length of the lead at each end; said apart", "3 mm");
        Option<Frequency?> at =
            OptionKinds.Parsed<Frequency>("--at", "F", "frequency for Q, or of a resonator, like \"146 MHz\"", Frequency.TryParsePositive);
        Option<string> metal = OptionKinds.Choice("--metal", "metal of wire and conductors", "copper", "silver", "aluminium", "brass");
        Option<Inductance?> core = OptionKinds.Parsed<Inductance>(
            "--core", "AL", "ring core: its A_L, inductance a turn squared, like \"5 nH\"",
            Above<Inductance>(Inductance.TryParse, static l => l.Henries, "5 nH"));
        Option<Length?> helical = Dimension("--helical", "helical resonator: inner side or diameter of its shield", "40 mm");
        Option<string> shield = OptionKinds.Choice("--shield", "shape of that shield", "square", "round");
        Option<LengthPair?> coaxial = OptionKinds.Parsed<LengthPair>(
            "--coaxial", "D1,D2", "quarter-wave resonator: inner and outer diameter, like \"10 mm,36 mm\"", LengthPair.TryParse);
        Option<Capacitance?> end = OptionKinds.Parsed<Capacitance>(
            "--end", "C", "capacitor at that resonator's open end, which shortens it, like \"10 pF\"",
            Above<Capacitance>(Capacitance.TryParse, static c => c.Farads, "10 pF"));

        Verb coil = new("coil", "gives inductance, Q and self-resonance of a coil from its dimensions, and the turns for an inductance")
        {
            Details =
                "An air coil needs --turns or --inductance, --diameter or --former, "
                    + "--length and --wire. --core makes it a ring core, --helical a helical " +
                "resonator, --coaxial a quarter-wave line; these two need --at. Formulas, their sources and ranges: docs/method/coils.md.",
            Examples =
            [
                new("coil --turns 2 --diameter \"7 mm\" --length \"3.8 mm\" --wire \"1 mm\" --leads \"3 mm\" --at \"145.05 MHz\"",
                    "A coil of the demo's filter: 27.5 nH, and what its leads add."),
                new("coil --inductance \"100 nH\" --former \"6 mm\" --length \"10 mm\" --wire \"18 AWG\"", "How many turns?"),
                new("coil --core \"5 nH\" --inductance \"1 uH\"", "The same on a ring core."),
                new("coil --helical \"38 mm\" --at \"146 MHz\"", "A helical resonator in a square box."),
                new("coil --coaxial \"10 mm,36 mm\" --at \"146 MHz\" --end \"5 pF\"", "A shortened quarter-wave line."),
            ],
        };
        foreach (Option option in (Option[])[turns, inductance, diameter, former, length, wire, leads, at, metal, core, helical, shield,
            coaxial, end])
        {
            coil.Add(option);
        }

        coil.Does(terminal, new OutputOptions("text", "json", "csv"), (context, _) =>
        {
            CoilOptions given = new()
            {
                Turns = context.Value(turns),
                InductanceH = context.Value(inductance)?.Henries,
                DiameterM = context.Value(diameter)?.Metres,
                FormerM = context.Value(former)?.Metres,
                LengthM = context.Value(length)?.Metres,
                WireM = context.Value(wire)?.Metres,
                LeadM = context.Value(leads)?.Metres,
                FrequencyHz = context.Value(at)?.Hertz,
                Metal = context.Value(metal) switch
                {
                    "silver" => Conductor.Silver,
                    "aluminium" => Conductor.Aluminium,
                    "brass" => Conductor.Brass,
                    _ => Conductor.Copper,
                },
                CoreH = context.Value(core)?.Henries,
                HelicalM = context.Value(helical)?.Metres,
                Shield = context.Value(shield) == "round" ? ShieldShape.Round : ShieldShape.Square,
                Coaxial = context.Value(coaxial),
                EndF = context.Value(end)?.Farads,
            };
            Outcome<CoilAnswer> outcome = CoilService.Ask(given.Question());
            CoilAnswer answer = outcome.Answer ?? throw new UsageException(outcome.Problem);
            return Task.FromResult(context.Format switch
            {
                "json" => context.WriteBytes(to => CoilWriter.WriteJson(answer, to)),
                "csv" => context.Write(to => CoilWriter.WriteCsv(answer, to)),
                _ => context.Write(to => CoilWriter.WriteText(answer, to, context.Ink)),
            });
        });
        return coil;
    }

    private static Option<Length?> Dimension(string name, string purpose, string example) =>
        OptionKinds.Parsed<Length>(
            name, "D", $"{purpose}, like \"{example}\"", Above<Length>(PartDimension.TryParse, static l => l.Metres, example));

    private static TextParser<T> Above<T>(TextParser<T> parser, Func<T, double> size, string example) =>
        (string text, out T value, out string problem) =>
    {
        if (!parser(text, out value, out problem))
        {
            return false;
        }

        problem = $"'{text.Trim()}' is not above 0; write a value like {example}";
        return size(value) > 0;
    };

    private static bool TryTurns(string text, out double value, out string problem)
    {
        problem = $"'{text.Trim()}' is no number of turns; write a plain number above 0 such as 2 or 4.5";
        return double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value) && value > 0
            && value <= MostTurns;
    }
}
