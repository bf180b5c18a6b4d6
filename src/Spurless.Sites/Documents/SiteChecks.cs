using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>
/// What can be checked only when the whole document is read: names, files, numbers of things. Works on a document that has errors.
/// </summary>
internal static class SiteChecks
{
    public static void Run(SiteDocument site, ISiteFiles files, DiagnosticBag diagnostics, SiteSurroundings beside)
    {
        string[] receivers = [.. beside.Receivers.Concat(site.Receivers).Select(static r => r.Name).OfType<string>()];
        string[] emitters = [.. beside.Emitters.Concat(site.Emitters).Select(static e => e.Name).OfType<string>()];
        Names names = new(receivers, emitters, beside.NamesKnown ? diagnostics : new DiagnosticBag());
        Unique(site, beside, diagnostics);
        TooMany(site, beside.Emitters.Count, diagnostics);
        foreach (EmitterEntry emitter in site.Emitters)
        {
            OfEmitter(emitter, names, diagnostics);
        }

        for (int i = 0; i < site.Exclusive.Count; i++)
        {
            Group(site.Exclusive[i], FormattableString.Invariant($"exclusive[{i}]"), site.Source, names, diagnostics);
        }

        foreach (EvidenceEntry evidence in site.Evidence)
        {
            OfEvidence(evidence, names);
            EvidenceSizes.Check(evidence, site, diagnostics);
        }

        foreach (FileReference file in site.Files)
        {
            if (!files.Exists(file.Path))
            {
                diagnostics.Error(
                    file.NamedIn,
                    file.At.Line,
                    file.At.Column,
                    $"there is no file '{Quote.Short(file.Path)}'",
                    "write a path relative to the site file, with '/' between folders");
            }
        }
    }

    private static void Unique(SiteDocument site, SiteSurroundings beside, DiagnosticBag diagnostics)
    {
        Dictionary<string, (string Kind, string File, int Line)> seen = new(StringComparer.Ordinal);
        foreach (ReceiverEntry receiver in beside.Receivers)
        {
            seen.TryAdd(receiver.Name, ("receiver", receiver.Source.File, receiver.Source.Start.Line));
        }

        foreach (EmitterEntry emitter in beside.Emitters)
        {
            seen.TryAdd(emitter.Name, ("emitter", emitter.Source.File, emitter.Source.Start.Line));
        }

        IEnumerable<(string Name, string Kind, EntrySource Source)> all = site.Receivers.Select(static r => (r.Name, "receiver", r.Source))
            .Concat(site.Emitters.Select(static e => (e.Name, "emitter", e.Source)));
        foreach ((string name, string kind, EntrySource source) in all)
        {
            if (name is not null && !seen.TryAdd(name, (kind, source.File, source.Start.Line)))
            {
                (string firstKind, string file, int line) = seen[name];
                string where = file == source.File
                    ? FormattableString.Invariant($"line {line}")
                    : FormattableString.Invariant($"{file}, line {line}");
                source.Error(
                    diagnostics,
                    "name",
                    $"the name '{Quote.Short(name)}' belongs to the {firstKind} of {where} already",
                    $"give this {kind} another name");
            }
        }
    }

    private static void TooMany(SiteDocument site, int beside, DiagnosticBag diagnostics)
    {
        int all = beside + site.Emitters.Count;
        if (all > SiteReader.MaximumEmitters && site.Emitters.Count > 0)
        {
            EntrySource first = site.Emitters[Math.Max(0, SiteReader.MaximumEmitters - beside)].Source;
            diagnostics.Error(
                first.File,
                first.Start.Line,
                first.Start.Column,
                FormattableString.Invariant($"this is emitter {SiteReader.MaximumEmitters + 1} of {all}"),
                FormattableString.Invariant($"keep the strongest {SiteReader.MaximumEmitters}"));
        }
    }

    private static void OfEmitter(EmitterEntry emitter, Names names, DiagnosticBag diagnostics)
    {
        foreach (string receiver in emitter.LevelPerReceiver.Keys)
        {
            names.Receiver(receiver, emitter.Source, $"level.{receiver}", atKey: true);
        }

        foreach ((string key, IReadOnlyDictionary<string, Decibels> losses) in (
            (string, IReadOnlyDictionary<string, Decibels>)[])[("coupling", emitter.Coupling), ("coupling_to", emitter.CouplingTo)])
        {
            foreach (string other in losses.Keys)
            {
                if (other == emitter.Name)
                {
                    emitter.Source.ErrorAtKey(
                        diagnostics, $"{key}.{other}", "a coupling of an emitter to itself", "write the name of the other emitter");
                }
                else
                {
                    names.Emitter(other, emitter.Source, $"{key}.{other}", atKey: true);
                }
            }
        }

        if (emitter.Follows is { } followed)
        {
            names.Receiver(followed, emitter.Source, "follows");
        }

        if (emitter.HalfDuplex is { } deaf)
        {
            names.Receiver(deaf, emitter.Source, "half_duplex");
            if (deaf == emitter.Follows)
            {
                emitter.Source.Error(
                    diagnostics,
                    "half_duplex",
                    $"'{Quote.Short(deaf)}' keys this transmitter (follows) and is said not to hear while it is on",
                    "keep one of 'follows' and 'half_duplex'");
            }
        }
    }

    private static void Group(IReadOnlyList<string> group, string field, EntrySource source, Names names, DiagnosticBag diagnostics)
    {
        for (int i = 0; i < group.Count; i++)
        {
            string item = FormattableString.Invariant($"{field}[{i}]");
            names.Emitter(group[i], source, item);
            if (group.Take(i).Contains(group[i]))
            {
                source.Error(diagnostics, item, $"'{Quote.Short(group[i])}' stands twice in this group", "keep one of the two");
            }
        }
    }

    private static void OfEvidence(EvidenceEntry evidence, Names names)
    {
        (string? receiver, string? emitter) = evidence switch
        {
            AttenuatorTest t => (t.Receiver, null),
            FilterTest t => (t.Receiver, null),
            EmitterReduced t => (t.Receiver, t.Emitter),
            OffsetMeasured t => (t.Receiver, null),
            RecordingHeard t => (t.Receiver, null),
            _ => ((string?)null, (string?)null),
        };
        if (receiver is not null)
        {
            names.Receiver(receiver, evidence.Source, "receiver");
        }

        if (emitter is not null)
        {
            names.Emitter(emitter, evidence.Source, "emitter");
        }
    }

    /// <summary>Says of a name that nobody bears it, and which was probably meant.</summary>
    private sealed class Names(string[] receivers, string[] emitters, DiagnosticBag diagnostics)
    {
        private readonly HashSet<string> _receivers = new(receivers, StringComparer.Ordinal);
        private readonly HashSet<string> _emitters = new(emitters, StringComparer.Ordinal);

        public void Receiver(string name, EntrySource source, string field, bool atKey = false) =>
            Check(name, "receiver", _receivers, receivers, _emitters, source, field, atKey);

        public void Emitter(string name, EntrySource source, string field, bool atKey = false) =>
            Check(name, "emitter", _emitters, emitters, _receivers, source, field, atKey);

        private void Check(
            string name,
            string kind,
            HashSet<string> right,
            string[] all,
            HashSet<string> others,
            EntrySource source,
            string field,
            bool atKey)
        {
            if (right.Contains(name))
            {
                return;
            }

            string remedy = Nearest.Find(name, all) is { } near ? $"write '{near}'"
                : all.Length == 0 ? $"give it a name of its own under '{kind}s'"
                : $"write the name of one of the {kind}s: " + string.Join(", ", all.Take(5).Select(static n => $"'{Quote.Short(n)}'"))
                    + (all.Length > 5 ? " …" : "");
            string what = others.Contains(name)
                ? $"'{Quote.Short(name)}' is "
                    + $"{(kind == "receiver" ? "an emitter, and a receiver" : "a receiver, and an emitter")} is due here"
                : $"there is no {kind} '{Quote.Short(name)}'";
            if (atKey)
            {
                source.ErrorAtKey(diagnostics, field, what, remedy);
            }
            else
            {
                source.Error(diagnostics, field, what, remedy);
            }
        }
    }
}
