using Spurless.Mixing.Search;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Studies;

/// <summary>
/// What one study leaves to the next of the same site: the search's memory, and what arrives at each transmitter from every other, which
/// is the number of emitters squared and changes with no slider of a chain. It serves one study at a time; studies beside each other take
/// one each of <see cref="Beside"/>.
/// </summary>
public sealed class StudyMemory
{
    private readonly Transmitters _transmitters;

    /// <summary>An empty one.</summary>
    public StudyMemory()
        : this(new Transmitters())
    {
    }

    private StudyMemory(Transmitters transmitters) => _transmitters = transmitters;

    /// <summary>The search, with its memory.</summary>
    internal FastSearch Search { get; } = new();

    /// <summary>A memory for a study that runs beside this one's: its own search, the same transmitters.</summary>
    public StudyMemory Beside() => new(_transmitters);

    /// <summary>The transmitters of a site: those of the last study where its emitters and its place are still the same.</summary>
    internal TransmitterResolver TransmittersOf(LoadedSite site) => _transmitters.Of(site);

    private sealed class Transmitters
    {
        private readonly Lock _gate = new();
        private IReadOnlyList<EmitterEntry>? _emitters;
        private PlaceEntry? _place;
        private string? _ground;
        private TransmitterResolver? _last;

        public TransmitterResolver Of(LoadedSite site)
        {
            SiteDocument document = site.Document;

            // Who comes meanwhile waits for the same rather than make it once more.
            lock (_gate)
            {
                if (_last is null
                    || !ReferenceEquals(_emitters, document.Emitters)
                    || !ReferenceEquals(_place, document.Place)
                    || _ground != site.Terrain?.Stamp)
                {
                    (_emitters, _place, _ground) = (document.Emitters, document.Place, site.Terrain?.Stamp);
                    _last = new TransmitterResolver(document, site.Of, site.Terrain);
                }

                return _last;
            }
        }
    }
}
