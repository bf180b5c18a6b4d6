using Spurless.Files.Yaml.Editing;
using Spurless.Sites.Documents;

namespace Spurless.Workbench.Desk;

/// <summary>
/// What the settings make of one receiver's chain. Stages are known by their place in the file, so that taking one out does not move the
/// others.
/// </summary>
internal sealed class ChainChange(ReceiverEntry entry, string siteFile)
{
    private readonly ChainStageEntry[] _stages = [.. entry.Chain];
    private readonly bool[] _out = new bool[entry.Chain.Count];
    private readonly List<(int Before, ChainStageEntry Stage, YamlValue Entry)> _filters = [];
    private readonly List<(int Before, ChainStageEntry Stage, YamlValue Entry)> _pads = [];

    public void Set(StageField field, string text) => _stages[field.Index] = field.Change(_stages[field.Index], text + field.Suffix)
        ?? throw new ArgumentException($"'{text}' may not stand there", nameof(text));

    public void TakeOut(StagePresence stage) => _out[stage.Index] = true;

    public void PutIn(StageOffered offered) => _filters.Add((offered.Before, offered.Stage(siteFile), offered.Entry));

    public void PutIn(PadOffered offered, string text) => _pads.Add((
        offered.Before,
        DeskTexts.Pad(text) ?? throw new ArgumentException($"'{text}' may not stand there", nameof(text)),
        YamlValue.Map(("attenuator", YamlValue.Of(text)))));

    // At one place a filter stands before an attenuator.
    private List<(int Before, ChainStageEntry Stage, YamlValue Entry)> Put => [.. _filters.Concat(_pads).OrderBy(static p => p.Before)];

    /// <summary>The chain as changed.</summary>
    public IReadOnlyList<ChainStageEntry> Chain()
    {
        List<ChainStageEntry> chain = [];
        List<(int Before, ChainStageEntry Stage, YamlValue Entry)> put = Put;
        for (int i = 0; i <= _stages.Length; i++)
        {
            chain.AddRange(put.Where(p => p.Before == i).Select(static p => p.Stage));
            if (i < _stages.Length && !_out[i])
            {
                chain.Add(_stages[i]);
            }
        }

        return chain;
    }

    /// <summary>
    /// The changes of the list in the file, from its end to its beginning; values are written before, by their own paths.
    /// </summary>
    public IEnumerable<DeskEdit> Edits(YamlPath receiver)
    {
        YamlPath chain = receiver.Key("chain");
        List<(int Before, ChainStageEntry Stage, YamlValue Entry)> put = Put;
        if (_stages.Length == 0)
        {
            if (put.Count > 0)
            {
                yield return DeskEdit.InsertKey(receiver, "chain", YamlValue.List([.. put.Select(static p => p.Entry)]));
            }

            yield break;
        }

        if (Array.TrueForAll(_out, static o => o) && put.Count == 0)
        {
            yield return DeskEdit.Remove(chain);
            yield break;
        }

        // What is put in first goes in before anything is taken out, so that the list is never empty between two edits.
        for (int i = _stages.Length; i >= 0; i--)
        {
            foreach ((_, _, YamlValue value) in put.Where(p => p.Before == i).Reverse())
            {
                yield return DeskEdit.InsertItem(chain, i, value);
            }
        }

        int[] places = [.. Enumerable.Range(0, _stages.Length).Where(i => _out[i])];
        foreach (int i in places.Reverse())
        {
            yield return DeskEdit.Remove(chain.Item(i + put.Count(p => p.Before <= i)));
        }
    }
}
