using System.Globalization;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Touchstone;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Receivers;

namespace Spurless.Sites.Sources;

/// <summary>Reads a receiver's measurements and every file that they name. All that is wrong in any of them is reported at once.</summary>
internal sealed class MeasurementLoader
{
    // Two receivers whose channels lie further apart than this share are not the same one retuned.
    private const double SameReceiver = 0.05;

    private readonly SourceFile _source;
    private readonly DiagnosticBag _findings = new();
    private readonly List<InputFile> _inputs;
    private readonly Dictionary<string, LoadedSite> _sites = new(StringComparer.Ordinal);
    private readonly HashSet<string> _tried = new(StringComparer.Ordinal);

    private MeasurementLoader(SourceFile source) => (_source, _inputs) = (source, [source.Input]);

    public static LoadedMeasurements? Load(SourceFile source, DiagnosticBag findings)
    {
        MeasurementLoader loader = new(source);
        LoadedMeasurements? loaded = loader.Load();
        findings.AddRange(loader._findings.InOrder());
        return loaded;
    }

    private LoadedMeasurements? Load()
    {
        if (MeasurementReader.Read(_source.Bytes, _source.Path, _source.Folder, _findings) is not { } document)
        {
            return null;
        }

        MeasuredTwoPort? front = null;
        foreach (MeasuredEntry entry in document.Measured)
        {
            if (entry is FrontEndReading reading)
            {
                front = FrontEnd(reading.Sweep, document);
            }
            else if (entry is SiteProductReading product)
            {
                Product(product, document);
            }
        }

        return _findings.HasErrors ? null : new LoadedMeasurements(
            document, front, _sites, _inputs, [.. _findings.InOrder().Where(static d => d.Severity == Severity.Warning)]);
    }

    private MeasuredTwoPort? FrontEnd(FileReference reference, ReceiverMeasurements document)
    {
        void Fault(string what, string remedy) =>
            _findings.Error(reference.NamedIn, reference.At.Line, reference.At.Column, what, remedy);
        if (_source.Folder.Read(reference.Path) is not { } bytes)
        {
            Fault($"'{Quote.Short(reference.Path)}' cannot be read", "check the file's name and permissions");
            return null;
        }

        string name = _source.Folder.NameOf(reference.Path);
        _inputs.Add(new InputFile(name, SourceFile.HashOf(bytes)));
        using MemoryStream stream = new(bytes);
        if (TouchstoneReader.Read(stream, name, _findings) is not { } data)
        {
            return null;
        }

        if (data.Ports != 2)
        {
            Fault($"'{Quote.Short(reference.Path)}' is no two-port sweep", "name a two-port sweep (.s2p) here");
            return null;
        }

        MeasuredTwoPort measured = MeasuredTwoPort.From(data);
        if (!measured.Covers(document.Frequency.Hertz))
        {
            Fault(
                $"the sweep does not reach the channel at {document.Frequency}: losses count relative to that on the channel",
                "name a sweep that covers the channel and the tones");
            return null;
        }

        return measured;
    }

    private void Product(SiteProductReading product, ReceiverMeasurements document)
    {
        FileReference reference = product.Site;
        if (_tried.Add(reference.Path))
        {
            ReadSite(reference);
        }

        if (_sites.GetValueOrDefault(reference.Path)?.Document is not { } site)
        {
            return;
        }

        ReceiverEntry? receiver = site.Receivers.FirstOrDefault(r => r.Name == product.Receiver);
        if (receiver is null)
        {
            product.Source.Error(
                _findings, "receiver", $"the site has no receiver '{Quote.Short(product.Receiver)}'",
                Nearest.Find(product.Receiver, [.. site.Receivers.Select(static r => r.Name)]) is { } near
                    ? $"write '{near}'"
                    : "write the name of one of its receivers");
        }
        else if (Math.Abs(receiver.Frequency.Hertz - document.Frequency.Hertz) > SameReceiver * document.Frequency.Hertz)
        {
            product.Source.Error(
                _findings, "receiver", $"that receiver listens on {receiver.Frequency}, these measurements are of {document.Frequency}",
                "name the receiver that was measured");
        }

        foreach (Named<int> term in product.Terms.Where(t => site.Emitters.All(e => e.Name != t.Name)))
        {
            _findings.Error(
                term.Key.File, term.Key.Start.Line, term.Key.Start.Column, $"the site has no emitter '{Quote.Short(term.Name)}'",
                Nearest.Find(term.Name, [.. site.Emitters.Select(static e => e.Name)]) is { } near
                    ? $"write '{near}'"
                    : "write the name of one of its emitters");
        }

        if (receiver is not null)
        {
            Lands(product, receiver, site);
        }
    }

    private void ReadSite(FileReference reference)
    {
        if (_source.Folder.Read(reference.Path) is not { } bytes)
        {
            _findings.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{Quote.Short(reference.Path)}' cannot be read",
                "check the file's name and permissions");
            return;
        }

        SourceFile file = new(_source.Folder.NameOf(reference.Path), bytes, new FilesBeside(_source.Folder, reference.Path));
        if (SourceReader.Site(file, _findings) is { } site)
        {
            _sites[reference.Path] = site;
            _inputs.AddRange(site.Inputs.Where(i => _inputs.All(known => known.Name != i.Name)));
        }
    }

    /// <summary>Whether the mixture can hit that receiver at all, as the study counts it.</summary>
    private void Lands(SiteProductReading product, ReceiverEntry receiver, SiteDocument site)
    {
        long frequency = 0, width = receiver.Channel.Hertz;
        foreach (Named<int> term in product.Terms)
        {
            if (site.Emitters.FirstOrDefault(e => e.Name == term.Name) is not { } emitter)
            {
                return;
            }

            frequency += term.Value * emitter.Frequency.Hertz;
            width += Math.Abs(term.Value) * emitter.BandwidthHz;
        }

        if (2 * Math.Abs(Math.Abs(frequency) - receiver.Frequency.Hertz) > width)
        {
            product.Source.Error(
                _findings, "terms",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"this mixture lands on {Frequency.FromHertz(Math.Abs(frequency))} and misses the channel at {receiver.Frequency}"),
                "write the emitters and coefficients of a mixture that the study of the site lists");
        }
    }
}
