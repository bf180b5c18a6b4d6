using Spurless.Mixing.Search;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Studies;

/// <summary>
/// What one study leaves to the next of the same site: the search's memory, and what arrives at each transmitter from every other, which
/// is the number of emitters squared and changes with no slider of a chain. It serves one study at a time.
/// </summary>
public sealed class StudyMemory
{
    private IReadOnlyList<EmitterEntry>? _emitters;
    private PlaceEntry? _place;
    private string? _ground;
    private TransmitterResolver? _transmitters;

    /// <summary>The search, with its memory.</summary>
    internal FastSearch Search { get; } = new();

    /// <summary>The transmitters of a site: those of the last study where its emitters and its place are still the same.</summary>
    internal TransmitterResolver TransmittersOf(LoadedSite site)
    {
        SiteDocument document = site.Document;
        if (_transmitters is null
            || !ReferenceEquals(_emitters, document.Emitters)
            || !ReferenceEquals(_place, document.Place)
            || _ground != site.Terrain?.Stamp)
        {
            (_emitters, _place, _ground) = (document.Emitters, document.Place, site.Terrain?.Stamp);
            _transmitters = new TransmitterResolver(document, site.Of, site.Terrain);
        }

        return _transmitters;
    }
}
