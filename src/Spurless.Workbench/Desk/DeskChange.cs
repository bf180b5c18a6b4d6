using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Files.Yaml.Editing;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Workbench.Desk;

/// <summary>What settings make of a site: the changed model, and the splices that make the same of its files.</summary>
internal sealed class DeskChange
{
    private readonly LoadedSite _site;
    private readonly Dictionary<int, ChainChange> _chains = [];
    private readonly Dictionary<int, ReceiverEntry> _receivers = [];
    private readonly Dictionary<int, EmitterEntry> _emitters = [];
    private readonly Dictionary<string, Circuit> _circuits = new(StringComparer.Ordinal);
    private readonly List<DeskEdit> _siteEdits = [];
    private readonly Dictionary<string, List<DeskEdit>> _circuitEdits = new(StringComparer.Ordinal);
    private readonly IReadOnlyDictionary<string, Network> _networks;

    /// <param name="site">The site as the file has it.</param>
    /// <param name="networks">Its circuits and sweeps and those that may be put in, by path.</param>
    /// <param name="settings">What was changed.</param>
    /// <param name="items">The items by id; settings of others are left alone.</param>
    public DeskChange(
        LoadedSite site, IReadOnlyDictionary<string, Network> networks, DeskSettings settings, IReadOnlyDictionary<string, DeskItem> items)
    {
        (_site, _networks) = (site, networks);
        foreach (string id in settings.Ids)
        {
            if (items.TryGetValue(id, out DeskItem? item))
            {
                Put(item, item.Written(settings.Of(item)));
            }
        }
    }

    /// <summary>The changed site.</summary>
    /// <exception cref="CircuitException">A changed circuit cannot be solved.</exception>
    public LoadedSite Site()
    {
        SiteDocument document = _site.Document;
        ReceiverEntry[] receivers =
        [
            .. document.Receivers.Select((r, i) =>
            {
                ReceiverEntry changed = _receivers.GetValueOrDefault(i, r);
                return _chains.TryGetValue(i, out ChainChange? chain) ? changed with { Chain = chain.Chain() } : changed;
            }),
        ];
        Dictionary<string, Network> networks = new(_networks, StringComparer.Ordinal);
        foreach ((string path, Circuit circuit) in _circuits)
        {
            networks[path] = networks[path] with { TwoPort = new CircuitTwoPort(CircuitSolver.Create(circuit)), Circuit = circuit };
        }

        return _site with
        {
            Document = document with
            {
                Receivers = receivers,
                Emitters = _emitters.Count == 0
                    ? document.Emitters
                    : [.. document.Emitters.Select((e, i) => _emitters.GetValueOrDefault(i, e))],
            },
            Networks = networks,
        };
    }

    /// <summary>The splices of each file, the site file under an empty name, circuits under the path that names them.</summary>
    public IEnumerable<(string Path, IReadOnlyList<DeskEdit> Edits)> Edits()
    {
        List<DeskEdit> site =
        [
            .. _siteEdits,
            .. _chains.OrderBy(static c => c.Key).SelectMany(static c => c.Value.Edits(YamlPath.Root.Key("receivers").Item(c.Key))),
        ];
        if (site.Count > 0)
        {
            yield return ("", site);
        }

        foreach ((string path, List<DeskEdit> edits) in _circuitEdits.OrderBy(static c => c.Key, StringComparer.Ordinal))
        {
            yield return (path, edits);
        }
    }

    private void Put(DeskItem item, string text)
    {
        YamlPath receivers = YamlPath.Root.Key("receivers");
        switch (item.Target)
        {
            case StagePresence stage:
                Chain(stage.Receiver).TakeOut(stage);
                break;
            case StageOffered offered:
                Chain(offered.Receiver).PutIn(offered);
                break;
            case PadOffered offered:
                Chain(offered.Receiver).PutIn(offered, text);
                break;
            case StageField field:
                Chain(field.Receiver).Set(field, text);
                _siteEdits.Add(DeskEdit.Set(
                    Along(receivers.Item(field.Receiver).Key("chain").Item(field.Index), field.Keys), YamlValue.Of(text + field.Suffix)));
                break;
            case ReceiverField field:
                _receivers[field.Receiver] = field.Change(
                    _receivers.GetValueOrDefault(field.Receiver, _site.Document.Receivers[field.Receiver]), text)
                    ?? throw new ArgumentException($"'{text}' may not stand there", nameof(text));
                _siteEdits.Add(item.IsStated
                    ? DeskEdit.Set(Along(receivers.Item(field.Receiver), field.Keys), YamlValue.Of(text))
                    : DeskEdit.InsertKey(receivers.Item(field.Receiver), field.Keys[0], YamlValue.Of(text)));
                break;
            case IsolatorField field:
                Isolate(field, text + field.Suffix);
                break;
            case PartField field:
                Circuit circuit = _circuits.TryGetValue(field.Path, out Circuit? changed) ? changed : _networks[field.Path].Circuit!;
                _circuits[field.Path] = circuit with
                {
                    Parts = [.. circuit.Parts.Select(p => p.Name == field.Part ? field.Change(p, text)! : p)],
                };
                if (!_circuitEdits.TryGetValue(field.Path, out List<DeskEdit>? edits))
                {
                    _circuitEdits[field.Path] = edits = [];
                }

                edits.Add(DeskEdit.Set(Along(YamlPath.Root, field.Keys), YamlValue.Of(text)));
                break;
            default:
                throw new InvalidOperationException($"the desk has no target of kind {item.Target.GetType().Name}");
        }
    }

    private void Isolate(IsolatorField field, string text)
    {
        EmitterEntry emitter = _site.Document.Emitters[field.Emitter];
        _emitters[field.Emitter] = emitter with { Isolator = DeskTexts.Isolator(text) };
        YamlPath path = YamlPath.Root.Key("emitters").Item(field.Emitter);
        YamlValue value = text.Contains(" at ", StringComparison.Ordinal) ? YamlValue.List(YamlValue.Of(text)) : YamlValue.Of(text);
        _siteEdits.Add(field.IsStated ? DeskEdit.Set(path.Key("isolator"), value) : DeskEdit.InsertKey(path, "isolator", value));
    }

    private ChainChange Chain(int receiver)
    {
        if (!_chains.TryGetValue(receiver, out ChainChange? chain))
        {
            _chains[receiver] = chain = new ChainChange(_site.Document.Receivers[receiver], _site.Document.File);
        }

        return chain;
    }

    private static YamlPath Along(YamlPath path, IReadOnlyList<string> keys) => keys.Aggregate(path, static (p, key) => p.Key(key));
}
