using System.Collections.Concurrent;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Locating;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Cures;

/// <summary>Tries ways out for one receiver: writes each into the site file's text, reads that, and studies it.</summary>
internal sealed class CureTrial
{
    private readonly CureQuestion _question;
    private readonly int _receiver;
    private readonly ReceiverFindings _before;
    private readonly StudyOptions _options;
    private readonly (ProductRow Row, double Probability)[] _heard;
    private readonly ConcurrentDictionary<string, Network?> _networks = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<CureStep, WrittenSite?> _first = new(ReferenceEqualityComparer.Instance);
    private readonly MadeFiles _made = new();
    private readonly WrittenSite _unchanged;

    /// <param name="question">The question.</param>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="before">The receiver as it is.</param>
    /// <param name="evidence">What was observed of it; null where nothing was.</param>
    public CureTrial(CureQuestion question, int receiver, ReceiverFindings before, LocatedReceiver? evidence)
    {
        _question = question;
        _unchanged = new WrittenSite(question.Source.Text, question.Site.Document, new Dictionary<string, string>());
        _receiver = receiver;
        _before = before;
        _options = question.Options;
        _heard = evidence is { HasEvidence: true }
            ? [.. before.Products.Select(p => (p.Row, evidence.Of(p) ?? 0)).Where(static r => r.Item2 > 0)]
            : [];
        Observed = evidence is { HasEvidence: true };
    }

    /// <summary>Whether anything was observed on this receiver.</summary>
    public bool Observed { get; }

    /// <summary>Tries a way: what it does, without the text that it would be written as.</summary>
    /// <param name="steps">What is done.</param>
    /// <param name="memory">What the study before left; for one study at a time.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>What it does; null where it cannot be done here.</returns>
    public (Cure Cure, Dictionary<ProductRow, double> Levels)? Try(
        IReadOnlyList<CureStep> steps, StudyMemory memory, CancellationToken cancellation) =>
        (StepInMemory.Commutes(steps) ? InMemory(steps) : Written(steps)) is { } site
            && Found(steps, site, memory, cancellation) is { } found
            ? Judged(steps, found, site)
            : null;

    /// <summary>A way that was tried, with its text: written into the site file's text, read of that, and studied.</summary>
    /// <param name="cure">The way.</param>
    /// <param name="memory">What the study before left; for one study at a time.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The way; null where it cannot be written into this file.</returns>
    public Cure? Finished(Cure cure, StudyMemory memory, CancellationToken cancellation) =>
        Studied(cure.Steps, memory, cancellation) is { } studied ? Judged(cure.Steps, studied.Found, studied.Written).Cure : null;

    /// <summary>What the receiver then finds, and what it was studied of; null where it cannot be done here.</summary>
    /// <param name="steps">What is done.</param>
    /// <param name="memory">What the study before left; for one study at a time.</param>
    /// <param name="cancellation">Stops it.</param>
    public (ReceiverFindings Found, WrittenSite Written)? Studied(
        IReadOnlyList<CureStep> steps, StudyMemory memory, CancellationToken cancellation) =>
        Written(steps) is { } site && Found(steps, site, memory, cancellation) is { } found ? (found, site) : null;

    private ReceiverFindings? Found(
        IReadOnlyList<CureStep> steps, WrittenSite site, StudyMemory memory, CancellationToken cancellation)
    {
        Dictionary<string, Network> networks = new(_question.Site.Networks, StringComparer.Ordinal);
        foreach (string path in site.Files.Keys.Concat(steps.OfType<FileFilterStep>().Select(static s => s.Path)))
        {
            Network? network = _networks.GetOrAdd(path, p => SiteLoader.LoadNetworks(
                site.Document, new FilesAndMore(_question.Source.Folder, site.Files), [p]).GetValueOrDefault(p));
            if (network is null)
            {
                return null;
            }

            networks[path] = network;
        }

        LoadedSite loaded = _question.Site with { Document = site.Document, Networks = networks };
        return StudyService.RunOne(loaded, _receiver, _options, memory, null, cancellation);
    }

    /// <summary>The site with steps, read of the text that they are written into; null where they cannot be done.</summary>
    private WrittenSite? Written(IReadOnlyList<CureStep> steps)
    {
        WrittenSite? written = First(steps[0]);
        for (int i = 1; i < steps.Count && written is not null; i++)
        {
            written = With(written, steps[i]);
        }

        return written;
    }

    /// <summary>The same with as little writing as can be; without its text.</summary>
    private WrittenSite? InMemory(IReadOnlyList<CureStep> steps)
    {
        CureStep[] byText = [.. steps.Where(static s => !StepInMemory.Can(s))];
        WrittenSite? site = byText.Length == 0 ? _unchanged : Written(byText);
        foreach (CureStep step in steps.Where(StepInMemory.Can))
        {
            if (site is null)
            {
                return null;
            }

            Dictionary<string, string> files = new(site.Files, StringComparer.Ordinal);
            if (step is UsualFilterStep { Filter: var filter })
            {
                if (_made.Of(filter) is not { } circuit)
                {
                    return null;
                }

                files[filter.Path] = circuit;
            }

            site = new WrittenSite("", StepInMemory.With(site.Document, _receiver, step), files);
        }

        return site;
    }

    // Many sets begin with the same step.
    private WrittenSite? First(CureStep step) => _first.GetOrAdd(step, s => With(_unchanged, s));

    /// <summary>The site with one step more, read of the text that it is written into; null where it cannot be done.</summary>
    private WrittenSite? With(WrittenSite before, CureStep step)
    {
        Dictionary<string, string> files = new(before.Files, StringComparer.Ordinal);
        if (SiteSplice.Write(before.Text, before.Document, _receiver, step, files, _made) is not { } text)
        {
            return null;
        }

        if (text == before.Text)
        {
            return before with { Files = files };
        }

        FilesAndMore beside = new(_question.Source.Folder, files);
        return SiteReader.Read(text, before.Document.File, beside).Document is not { } read ? null
            : new WrittenSite(text, Same(before.Document, read, step), files);
    }

    /// <summary>
    /// What a step does not touch reads as it was, and is taken from there: a study knows by the very object what it need not work out
    /// anew.
    /// </summary>
    private static SiteDocument Same(SiteDocument before, SiteDocument read, CureStep step) => read with
    {
        Place = before.Place,
        Emitters = step is TransmitterStep or ChannelStep ? read.Emitters : before.Emitters,
    };

    private (Cure Cure, Dictionary<ProductRow, double> Levels) Judged(
        IReadOnlyList<CureStep> steps, ReceiverFindings found, WrittenSite written)
    {
        Dictionary<ProductRow, double> levels = [];
        double quiet = 1;
        bool known = true;
        foreach (ProductFinding product in found.Products)
        {
            if (product.OverNoiseDb is { } over)
            {
                levels[product.Row] = over;
                quiet *= 1 - (product.Chance ?? 0);
            }
            else
            {
                known = false;
                levels[product.Row] = double.PositiveInfinity;
            }
        }

        return (new Cure
        {
            Steps = steps,
            Harmful = found.Harmful,
            Marginal = found.Marginal,
            Unknown = found.Products.Count(static p => p.Verdict == Verdict.Unknown),
            OtherHarmful = found.OtherCauses.Count(static c => c.Verdict == Verdict.Harmful),
            WorstOverNoiseDb = found.Products.Max(static p => p.OverNoiseDb),
            SumOverNoiseDb = found.SumOverNoiseDb,
            WantedLossDb = found.SensitivityAtAntennaDbm - _before.SensitivityAtAntennaDbm,
            Left = [.. found.Products.Where(static p => p.Verdict == Verdict.Harmful)],
            QuietChance = known ? quiet : null,
            CuresHeard = Observed
                ? _heard.Where(h => !(levels.TryGetValue(h.Row, out double over) && over >= _options.HarmfulFromDb)).Sum(
                    static h => h.Probability)
                : null,
            Text = written.Text,
            Files = written.Files,
        }, levels);
    }
}
