using System.Globalization;
using System.Numerics;
using Spurless.Circuits.TwoPorts;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Bypasses;

namespace Spurless.Sites.Sources;

/// <summary>Reads a bypass relay and every file that it names. All that is wrong in any of them is reported at once.</summary>
internal sealed class BypassLoader
{
    private readonly SourceFile _source;
    private readonly DiagnosticBag _findings = new();
    private readonly List<InputFile> _inputs;

    private BypassLoader(SourceFile source) => (_source, _inputs) = (source, [source.Input]);

    /// <summary>Loads a relay.</summary>
    /// <param name="source">Its file.</param>
    /// <param name="withSite">Whether to read the site that it names: not where that site itself names the relay.</param>
    /// <param name="alsoHz">Frequencies at which the filter must have a solution, besides that transmitted on.</param>
    /// <param name="findings">Takes all findings.</param>
    public static LoadedBypass? Load(SourceFile source, bool withSite, IReadOnlyList<double> alsoHz, DiagnosticBag findings)
    {
        BypassLoader loader = new(source);
        LoadedBypass? loaded = loader.Load(withSite, alsoHz);
        findings.AddRange(loader._findings.InOrder());
        return loaded;
    }

    private LoadedBypass? Load(bool withSite, IReadOnlyList<double> alsoHz)
    {
        if (BypassReader.Read(_source.Bytes, _source.Path, _source.Folder, _findings) is not { } document)
        {
            return null;
        }

        Network? filter = null;
        if (document.Filter is { } reference)
        {
            filter = SiteLoader.LoadNetwork(reference, _source.Folder, [document.Frequency.Hertz, .. alsoHz], _findings, _inputs);
            if (filter is not null)
            {
                Impedance(document, reference, filter.TwoPort);
            }
        }

        LoadedSite? site = document.Site is { } named && withSite ? Site(named) : null;
        return _findings.HasErrors ? null : new LoadedBypass(
            document, filter, site, _inputs, [.. _findings.InOrder().Where(static d => d.Severity == Severity.Warning)]);
    }

    private void Impedance(BypassDocument document, FileReference reference, ITwoPort filter)
    {
        if (filter.Reference1 != filter.Reference2 || filter.Reference1 != new Complex(document.ImpedanceOhm, 0))
        {
            _findings.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"the filter's ports are of {filter.Reference1.Real:0.###} and {filter.Reference2.Real:0.###} ohm, the line is of "
                        + $"{document.ImpedanceOhm:0.###} ohm"),
                "write the line's impedance, or name a filter made for it");
        }
    }

    private LoadedSite? Site(FileReference reference)
    {
        if (_source.Folder.Read(reference.Path) is not { } bytes)
        {
            _findings.Error(
                reference.NamedIn, reference.At.Line, reference.At.Column, $"'{Quote.Short(reference.Path)}' cannot be read",
                "check the file's name and permissions");
            return null;
        }

        SourceFile file = new(_source.Folder.NameOf(reference.Path), bytes, new FilesBeside(_source.Folder, reference.Path));
        LoadedSite? site = SourceReader.Site(file, _findings);
        if (site is not null)
        {
            _inputs.AddRange(site.Inputs.Where(i => _inputs.All(known => known.Name != i.Name)));
        }

        return site;
    }
}
