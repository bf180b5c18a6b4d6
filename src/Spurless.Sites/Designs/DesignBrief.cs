using System.Globalization;
using Spurless.Circuits.Requirements;
using Spurless.Design.Questions;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;
using Spurless.Sites.Cures;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Designs;

/// <summary>How a design is asked for beyond its requirement; null keeps what stands there.</summary>
public sealed record DesignOptions
{
    /// <summary>Seed of all that is drawn.</summary>
    public ulong? Seed { get; init; }

    /// <summary>Capacitance of open bypass contacts round the filter, in farads.</summary>
    public double? BypassOpenF { get; init; }

    /// <summary>Power in watts that the filter must carry.</summary>
    public double? TransmitW { get; init; }

    /// <summary>Unloaded Q of coils in the middle of the band.</summary>
    public double? InductorQ { get; init; }

    /// <summary>Most candidates.</summary>
    public int? MostCandidates { get; init; }
}

/// <summary>What a site wants of a filter.</summary>
public sealed record SiteDesignOptions
{
    /// <summary>The receiver's name; null for the first.</summary>
    public string? Receiver { get; init; }

    /// <summary>Added to each least attenuation, in dB.</summary>
    public double MarginDb { get; init; } = 6;

    /// <summary>Most loss on the channel, in dB.</summary>
    public double LossDb { get; init; } = 3;

    /// <summary>Least return loss on the channel, in dB.</summary>
    public double ReturnLossDb { get; init; } = 10;

    /// <summary>Unloaded Q of coils (common practice: half to two thirds of what their geometry promises).</summary>
    public double InductorQ { get; init; } = 180;

    /// <summary>Unloaded Q of capacitors (common practice for chips at 145 MHz).</summary>
    public double CapacitorQ { get; init; } = 500;

    /// <summary>Size of the series of capacitors.</summary>
    public int Series { get; init; } = 24;
}

/// <summary>A design asked for, with where it comes from.</summary>
/// <param name="Question">What is asked.</param>
/// <param name="Source">The file it comes from, as the user gave it.</param>
/// <param name="Needs">The site's needs it was made of; null for a requirement file.</param>
/// <param name="Inputs">The files read.</param>
public sealed record DesignBrief(DesignQuestion Question, string Source, ReceiverNeeds? Needs, IReadOnlyList<InputFile> Inputs)
{
    /// <summary>Name of the requirement file that is written beside the circuits of a site's design.</summary>
    public const string NeedsFile = "needs.requirement.yaml";

    /// <summary>What a brief without a file is said to come from.</summary>
    public const string DrawnHere = "a mask drawn on the bench";

    /// <summary>The requirement as the circuit files name it: a path from where they lie.</summary>
    public string RequirementPath { get; init; } = Needs is null ? Source : NeedsFile;

    /// <summary>The brief of a requirement file; null where it has a fault, which is then among the findings.</summary>
    public static DesignBrief? Of(RequirementFile file, DesignOptions options, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(options);
        Requirement r = file.Requirement;
        DesignQuestion question = With(options, new DesignQuestion
        {
            Name = r.Name,
            PassFromHz = r.Pass.From.Hertz,
            PassToHz = r.Pass.To.Hertz,
            MostLossDb = r.Pass.Loss.Value,
            LeastReturnLossDb = r.Pass.ReturnLoss?.Value,
            Reject = [.. r.Reject.Select(static x => new RejectDemand(x.From.Hertz, x.To.Hertz, x.By.Value))],
            ImpedanceOhm = r.Impedance.Ohms,
            Parts = new PartLimits
            {
                InductorQ = r.Parts.InductorQ is { } ql ? new(ql.Quality, ql.Frequency.Hertz) : null,
                CapacitorQ = r.Parts.CapacitorQ is { } qc ? new(qc.Quality, qc.Frequency.Hertz) : null,
                InductorsH = r.Parts.Inductors is { } l ? (l.Least.Henries, l.Greatest.Henries) : null,
                CapacitorsF = r.Parts.Capacitors is { } c ? (c.Least.Farads, c.Greatest.Farads) : null,
                Series = (int?)r.Parts.Series,
            },
            TransmitW = r.Transmit?.Watts,
            BypassOpenF = file.BypassOpenF,
        });
        IReadOnlyList<DesignFault> faults = DesignCheck.Faults(question);
        foreach (DesignFault fault in faults)
        {
            YamlPosition at = fault is { Key: "reject", Index: >= 0 } ? r.Reject[fault.Index].At : file.PlaceOf(fault.Key);
            diagnostics.Error(r.File, at.Line, at.Column, fault.What, fault.Remedy);
        }

        return faults.Count == 0 ? new(question, file.Input.Name, null, file.Inputs) : null;
    }

    /// <summary>The brief of a site's receiver: its channel passes, each culprit loses what the products ask for and the margin.</summary>
    public static DesignBrief? Of(
        LoadedSite site,
        string path,
        SiteDesignOptions wanted,
        DesignOptions options,
        DiagnosticBag diagnostics,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(wanted);
        ArgumentNullException.ThrowIfNull(options);
        int number = wanted.Receiver is null ? 0 : site.Document.Receivers.ToList().FindIndex(r => r.Name == wanted.Receiver);
        if (number < 0 || site.Document.Receivers.Count == 0)
        {
            YamlPosition first = site.Document.Receivers.Count > 0 ? site.Document.Receivers[0].Source.Start : default;
            diagnostics.Error(
                path,
                first.Line,
                first.Column,
                $"there is no receiver named '{wanted.Receiver}'",
                $"name one of: {string.Join(", ", site.Document.Receivers.Select(static r => r.Name))}");
            return null;
        }

        YamlPosition place = site.Document.Receivers[number].Source.Start;
        ReceiverFindings found = StudyService.Run(site, new StudyOptions(), null, cancellation).Receivers[number];
        ReceiverNeeds needs = ReceiverNeeds.Of(
            found.WithoutFilter ?? found, marginDb: wanted.MarginDb, quietDb: new StudyOptions().MarginalFromDb - 1);
        if (needs.Carriers.Count == 0)
        {
            diagnostics.Error(
                path,
                place.Line,
                place.Column,
                $"no mixture made in {needs.Receiver} is harmful, so there is nothing for a filter to do",
                "write a requirement file for a filter of your own");
            return null;
        }

        double f0 = needs.FrequencyHz,
        half = 5e3 * Math.Ceiling(Math.Max(needs.ChannelHz, 0.0005 * f0) / 5e3),
        from = f0 - half,
        to = f0 + half;
        if (options.TransmitW is not null && site.Document.Emitters.FirstOrDefault(e => e.Follows == needs.Receiver) is { } own)
        {
            (from, to) = (Math.Min(from, own.Frequency.Hertz - half), Math.Max(to, own.Frequency.Hertz + half));
        }

        DesignQuestion question = With(options, new DesignQuestion
        {
            Name = $"filter for {needs.Receiver} of {site.Document.Site}",
            PassFromHz = from,
            PassToHz = to,
            MostLossDb = wanted.LossDb,
            LeastReturnLossDb = wanted.ReturnLossDb,
            Reject =
            [
                .. needs.Carriers.Select(static c => new RejectDemand(c.FrequencyHz, c.FrequencyHz, Math.Round(c.AttenuationDb + 0.05, 1))),
            ],
            Parts = UsualParts(f0, wanted),
        });
        IReadOnlyList<DesignFault> faults = DesignCheck.Faults(question);
        foreach (DesignFault fault in faults)
        {
            string who = fault is { Key: "reject", Index: >= 0 } ? $"{needs.Carriers[fault.Index].Emitter}: " : "";
            diagnostics.Error(
                path,
                place.Line,
                place.Column,
                who + fault.What,
                fault.Key == "reject"
                    ? "no filter keeps out what lies on the channel: cure it at its transmitter, or choose another channel"
                    : fault.Remedy);
        }

        return faults.Count == 0 ? new(question, path, needs, site.Inputs) : null;
    }

    /// <summary>A brief without a file: what must pass, to begin a mask with; parts are those usual about its middle.</summary>
    /// <param name="pass">The question as far as it is known: the pass-band and what is asked of it.</param>
    public static DesignBrief OfMask(DesignQuestion pass)
    {
        ArgumentNullException.ThrowIfNull(pass);
        return new(pass with { Parts = UsualParts(pass.CentreHz, new SiteDesignOptions()) }, DrawnHere, null, [])
        {
            RequirementPath = NeedsFile,
        };
    }

    /// <summary>
    /// The same with another mask, or other wishes, as of a page: the requirement is then written anew beside the circuits.
    /// </summary>
    /// <param name="question">The mask.</param>
    public DesignBrief Edited(DesignQuestion question) => this with { Question = question, RequirementPath = NeedsFile };

    /// <summary>Whether the requirement that the circuits name is written beside them.</summary>
    public bool WritesRequirement => RequirementPath == NeedsFile;

    /// <summary>What is wrong with the question, in words, each 'what; what to write instead'.</summary>
    public IReadOnlyList<string> Faults => [.. DesignCheck.Faults(Question).Select(f => $"{Where(f)}{f.What}; {f.Remedy}")];

    private string Where(DesignFault fault) => fault is { Key: "reject", Index: >= 0 }
        ? $"{MegahertzText.InWords(Question.Reject[fault.Index].FromHz)} MHz: "
        : "";

    // Coils of two to a few turns and capacitors that chips have, by reactance about the middle.
    private static PartLimits UsualParts(double f0, SiteDesignOptions wanted) => new()
    {
        InductorQ = new(wanted.InductorQ, f0),
        CapacitorQ = new(wanted.CapacitorQ, f0),
        InductorsH = (Two(1.1 / f0), Two(45 / f0)),
        CapacitorsF = (0.5e-12, Two(0.0145 / f0)),
        Series = wanted.Series,
    };

    // Two figures, as a person would write the range.
    private static double Two(double value) =>
        double.Parse(value.ToString("E1", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static DesignQuestion With(DesignOptions options, DesignQuestion q) => q with
    {
        Seed = options.Seed ?? q.Seed,
        BypassOpenF = options.BypassOpenF ?? q.BypassOpenF,
        TransmitW = options.TransmitW ?? q.TransmitW,
        MostCandidates = options.MostCandidates ?? q.MostCandidates,
        Parts = options.InductorQ is { } better ? q.Parts with { InductorQ = new(better, q.CentreHz) } : q.Parts,
    };
}
