using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Newcomers;

/// <summary>
/// Reads a site and the file of a newcomer to it, and joins them in memory. What is wrong with either is said at once, each at its place;
/// a name that is in both is an error of the newcomer's.
/// </summary>
public static class NewcomerReader
{
    // What a newcomer's file may say, but does not count, with what does.
    private static readonly (string Key, string Instead)[] _siteDecides =
    [
        ("search", "the search limits of the site hold"),
        ("terrain", "the elevation files of the site hold"),
        ("evidence", "what was observed belongs to the site"),
    ];

    /// <summary>Reads both.</summary>
    /// <param name="site">The site file.</param>
    /// <param name="newcomer">The newcomer's file: a site file that may lack receivers or emitters.</param>
    /// <param name="findings">Takes all that is wrong, the site's first.</param>
    /// <returns>Both and the joint site; null where there is an error.</returns>
    public static NewcomerSites? Read(SourceFile site, SourceFile newcomer, DiagnosticBag findings)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(newcomer);
        ArgumentNullException.ThrowIfNull(findings);
        if (site.Bytes.AsSpan().SequenceEqual(newcomer.Bytes))
        {
            findings.Error(newcomer.Path, 0, 0, "this is the site's own file", "name the file of who asks to join it");
            return null;
        }

        SiteReading here = SiteReader.Read(site.Bytes, site.Path, site.Folder);
        SiteReading comes = SiteReader.ReadNewcomer(newcomer.Bytes, newcomer.Path, newcomer.Folder, here.Document);
        DiagnosticBag own = new();
        if (comes.Document is { } entering)
        {
            Check(entering, here.Document, own);
            comes = comes with { Document = entering with { Terrain = null, Evidence = [] } };
        }

        LoadedSite? host = SiteLoader.LoadToJoin(here, site.Folder, comes.Document, out IReadOnlyList<Diagnostic> ofSite);
        LoadedSite? guest = SiteLoader.LoadToJoin(comes, newcomer.Folder, here.Document, out IReadOnlyList<Diagnostic> ofNewcomer);
        findings.AddRange(ofSite);
        findings.AddRange(ofNewcomer.Where(f => !ofSite.Contains(f)));
        findings.AddRange(own.InOrder());
        return host is null || guest is null || own.HasErrors
            ? null
            : new NewcomerSites(host, guest, Join(host, guest, site.Folder, newcomer.Folder));
    }

    private static void Check(SiteDocument entering, SiteDocument? site, DiagnosticBag findings)
    {
        if (entering.Receivers.Count == 0 && entering.Emitters.Count == 0)
        {
            entering.Source.Error(
                findings, "receivers", "there is neither a receiver nor an emitter of a newcomer here",
                "write what it would bring under 'emitters' and 'receivers' ('spurless new site' gives a template)");
        }

        if (site is not null && entering.Place is { } place && site.Place is { } there && place != there)
        {
            entering.Source.ErrorAtKey(
                findings, "place", "the newcomer's place is not that of the site, and receivers and distances are those of one place",
                "leave 'place' out, and say of each emitter where it stands with 'at', or with 'distance' and 'bearing' from the site");
        }
        else if (site is { Place: null } && entering.Place is not null)
        {
            Unused(entering, "place", "the site's own file states none, and its distances count", findings);
        }

        foreach ((string key, string instead) in _siteDecides)
        {
            if (entering.Source.Fields.ContainsKey(key))
            {
                Unused(entering, key, instead, findings);
            }
        }
    }

    private static void Unused(SiteDocument entering, string key, string instead, DiagnosticBag findings)
    {
        FieldPlace at = entering.Source.Fields[key];
        findings.Warning(
            entering.Source.File, at.Key.Line, at.Key.Column, $"'{key}' of a newcomer is not used: {instead}",
            $"leave '{key}' out of this file");
    }

    private static LoadedSite Join(LoadedSite site, LoadedSite newcomer, ISiteFiles siteFiles, ISiteFiles newcomerFiles)
    {
        JoinedPaths paths = new(site.Networks, siteFiles, newcomerFiles);
        Dictionary<string, Chains.Network> networks = new(site.Networks, StringComparer.Ordinal);
        foreach ((string path, Chains.Network network) in newcomer.Networks)
        {
            networks[paths.Of(path)] = network;
        }

        (SiteDocument here, SiteDocument comes) = (site.Document, newcomer.Document);
        return site with
        {
            Document = here with
            {
                Receivers = [.. here.Receivers, .. comes.Receivers.Select(paths.In)],
                Emitters = CouplingEnds.Joined([.. here.Emitters, .. comes.Emitters.Select(paths.In)]),
                Exclusive = [.. here.Exclusive, .. comes.Exclusive],
                KeysPresent = [.. here.KeysPresent.Union(comes.KeysPresent, StringComparer.Ordinal)],
            },
            Networks = networks,
            Inputs = [.. site.Inputs, .. newcomer.Inputs.Where(i => site.Inputs.All(s => s.Name != i.Name))],
            Warnings = [.. site.Warnings, .. newcomer.Warnings],
        };
    }
}
