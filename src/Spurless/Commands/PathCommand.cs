using System.CommandLine;
using System.Globalization;
using Spurless.CommandLine;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Radio.Terrain;
using Spurless.Reports.Paths;
using Spurless.Sites.Paths;
using Spurless.Sites.Sources;
using Spurless.Sites.Terrain;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>path SITE</c>, <c>path --profile FILE</c>: one path over the ground.</summary>
internal static class PathCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> site = OptionKinds.OptionalFile("SITE", "a site file with 'terrain:'; without --profile", "");
        Option<string?> from = OptionKinds.Text("--from", "EMITTER", "an emitter of the site");
        Option<string?> to = OptionKinds.Text("--to", "RECEIVER", "a receiver of the site; default its only one");
        Option<string?> profile = OptionKinds.Text(
            "--profile", "FILE.csv", "a profile of the ground, in place of SITE: distance_km,height_m,clutter_m,zone");
        Option<Frequency?> frequency = OptionKinds.Parsed<Frequency>(
            "--frequency", "F", "with --profile: the frequency, like \"98.2 MHz\"", Frequency.TryParsePositive);
        Option<TwoLengths?> heights = OptionKinds.Parsed<TwoLengths>(
            "--heights", "H1,H2", "with --profile: transmitting and receiving antenna over ground, like \"12 m,19 m\"",
                TwoLengths.TryParse);
        Option<double?> latitude = Number(
            "--latitude", "DEGREES", "with --profile: latitude of the path's middle", -90, 90, "degrees from -90 to 90 such as 48.59");
        Option<double?> time = Number(
            "--time", "PERCENT", "share of time for which the loss is not exceeded, 1 to 50; default 50", 1, 50,
                "a share of 1 to 50 % such as 1");
        Option<double?> refractivity = Number(
            "--refractivity", "N", "surface refractivity at sea level; default 325, said as assumed", 200, 500,
                "N-units from 200 to 500 such as 323.9");
        Option<double?> gradient = Number(
            "--gradient", "DN", "how much refractivity falls in a km; default 45, said as assumed", 1, 150,
                "N-units per km from 1 to 150 such as 45");
        Option<TwoLengths?> coast = OptionKinds.Parsed<TwoLengths>(
            "--coast", "D1,D2", "from each antenna over land to the coast, like \"500 km,500 km\", which is the default",
                TwoLengths.TryParse);
        Option<string> polarisation = OptionKinds.Choice(
            "--polarisation", "direction of the electric field; of a site its antennas' own where they say it", "vertical", "horizontal");

        Verb path = new("path", "gives the loss of one path over the ground, and what lies in the way")
        {
            Details =
                "By Recommendation ITU-R P.1812: diffraction over the profile, ducting, "
                    + "troposcatter. The loss is not exceeded for the share of "
                + "time of --time at half of the places. Elevation files, the profile's format and the method: docs/how-to.md, "
                + "docs/formats/path-profile.md, docs/method/paths.md.",
            Examples =
            [
                new("path demo/hill.site.yaml --from \"valley relay\" --to \"hill input\"", "An emitter behind the demo's invented hill."),
                new("path --profile demo/hill.profile.csv --frequency \"145.65 MHz\" --heights \"12 m,19 m\" --latitude 40.5",
                    "Any profile, by hand or from elsewhere."),
            ],
        };
        path.Add(site);
        Option[] all = [from, to, profile, frequency, heights, latitude, time, refractivity, gradient, coast, polarisation];
        foreach (Option option in all)
        {
            path.Add(option);
        }

        path.Does(terminal, new OutputOptions("text", "json", "html"), (context, cancel) =>
        {
            PathQuestion question = new()
            {
                FrequencyHz = context.Value(frequency)?.Hertz ?? 0,
                TransmitterHeightM = context.Value(heights)?.FirstM ?? 0,
                ReceiverHeightM = context.Value(heights)?.SecondM ?? 0,
                LatitudeDegrees = context.Value(latitude) ?? 0,
                TimePercent = context.Value(time) ?? 50,
                Refractivity = context.Value(refractivity),
                Gradient = context.Value(gradient),
                CoastFromTransmitterM = context.Value(coast)?.FirstM,
                CoastFromReceiverM = context.Value(coast)?.SecondM,
                Polarisation = !context.IsGiven(polarisation) ? null
                    : context.Value(polarisation) == "horizontal" ? Polarisation.Horizontal : Polarisation.Vertical,
            };
            string file = context.Value(site);
            bool bySite = file.Length > 0;
            List<string> wrong = [];
            if (bySite == context.Value(profile) is not null)
            {
                wrong.Add(bySite ? "a site file and --profile are two ways of saying where the ground is; write one of them"
                    : "nothing says where the ground is; write a site file with --from and --to, or --profile FILE.csv");
            }

            (Option Option, bool Given, bool OfProfile)[] parts =
            [
                (from, context.Value(from) is not null, false), (to, context.Value(to) is not null, false),
                (frequency, context.Value(frequency) is not null, true), (heights, context.Value(heights) is not null, true),
                (latitude, context.Value(latitude) is not null, true),
            ];
            wrong.AddRange(parts.Where(p => p.Given && p.OfProfile == bySite).Select(p => bySite
                ? $"{p.Option.Name} belongs to --profile; the site file says it here, leave it out"
                : $"{p.Option.Name} belongs to a site file; leave it out"));
            wrong.AddRange(parts.Where(p => !p.Given && p.OfProfile && !bySite).Select(
                static p => $"{p.Option.Name} is missing; --profile needs it, see 'path --help'"));
            if (wrong.Count > 0)
            {
                throw new UsageException(wrong);
            }

            return bySite
                ? OfSiteAsync(context, file, context.Value(from), context.Value(to), question, cancel)
                : OverProfileAsync(context, context.Value(profile)!, question, cancel);
        });
        return path;
    }

    private static async Task<int> OverProfileAsync(CommandContext context, string file, PathQuestion question, CancellationToken cancel)
    {
        if (question.Conditions.Impossible() is { } impossible)
        {
            throw new UsageException(impossible);
        }

        DiagnosticBag findings = new();
        SourceFile? source = await context.SourceAsync(file, FileKind.PathProfile, findings, cancel).ConfigureAwait(false);
        PathAnswer? answer = source is null ? null : PathService.OverProfile(source, question, findings);
        int status = context.Tell(findings.InOrder());
        return answer is null ? status : await WriteAsync(context, answer).ConfigureAwait(false);
    }

    private static async Task<int> OfSiteAsync(
        CommandContext context, string file, string? from, string? to, PathQuestion question, CancellationToken cancel)
    {
        DiagnosticBag ofSite = new();
        SourceFile? source = await context.SourceAsync(file, FileKind.Site, ofSite, cancel).ConfigureAwait(false);
        LoadedSite? site = source is null ? null : SourceReader.Site(source, ofSite);
        context.Tell(ofSite.InOrder());
        if (site is null)
        {
            return ExitStatus.Input;
        }

        List<string> wrong = [];
        string? emitter = Choose("--from", "emitter", from, [.. site.Document.Emitters.Select(static e => e.Name)], wrong);
        string? receiver = Choose("--to", "receiver", to, [.. site.Document.Receivers.Select(static r => r.Name)], wrong);
        if (emitter is null || receiver is null)
        {
            throw new UsageException(wrong);
        }

        DiagnosticBag findings = new();
        PathAnswer? answer = PathService.OfSite(site, emitter, receiver, question, findings);
        int status = context.Tell(findings.InOrder());
        return answer is null ? status : await WriteAsync(context, answer).ConfigureAwait(false);
    }

    private static string? Choose(string option, string kind, string? name, string[] all, List<string> wrong)
    {
        if (name is null)
        {
            if (all.Length == 1)
            {
                return all[0];
            }

            wrong.Add(all.Length == 0 ? $"the site has no {kind}; add one"
                : $"{option} is missing; write {option} \"{all[0]}\" or another {kind} of the site");
            return null;
        }

        if (all.Contains(name, StringComparer.Ordinal))
        {
            return name;
        }

        string near = Nearest.Find(name, all) ?? all.FirstOrDefault() ?? "one that the site has";
        wrong.Add($"{option}: the site has no {kind} '{name}'; write \"{near}\"");
        return null;
    }

    private static async Task<int> WriteAsync(CommandContext context, PathAnswer answer)
    {
        switch (context.Format)
        {
            case "json":
                return context.WriteBytes(to => PathWriter.WriteJson(answer, to));
            case "html":
                string page = await PathReport.RenderAsync(answer, CommandContext.Made).ConfigureAwait(false);
                return context.Write(to => to.Write(page));
            default:
                return context.Write(to => PathWriter.WriteText(answer, to, context.Ink));
        }
    }

    private static Option<double?> Number(string name, string unit, string purpose, double low, double high, string wanted) =>
        OptionKinds.Parsed<double>(name, unit, purpose, (string text, out double value, out string problem) =>
        {
            problem = $"'{text.Trim()}' cannot be read, or is out of range; write {wanted}";
            string bare = text.Trim().Replace('\u2212', '-').TrimEnd('%').TrimEnd();
            return double.TryParse(bare, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && value >= low && value <= high;
        });
}
