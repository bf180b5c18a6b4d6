using Spurless.Sites.Chains;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Newcomers;

/// <summary>
/// Names for the circuits and sweeps of a newcomer within the joint site. Each file's paths are relative to it, so one path can mean two
/// files: the newcomer's then gets another name.
/// </summary>
/// <param name="taken">What the site names.</param>
/// <param name="site">The files beside the site file.</param>
/// <param name="newcomer">The files beside the newcomer's.</param>
internal sealed class JoinedPaths(IReadOnlyDictionary<string, Network> taken, ISiteFiles site, ISiteFiles newcomer)
{
    /// <summary>The name of one of the newcomer's files.</summary>
    public string Of(string path)
    {
        string name = path;
        while (taken.ContainsKey(name) && site.NameOf(path) != newcomer.NameOf(path))
        {
            name = "./" + name;
        }

        return name;
    }

    /// <summary>A receiver with its files named so.</summary>
    public ReceiverEntry In(ReceiverEntry receiver) => receiver with
    {
        Chain = [.. receiver.Chain.Select(stage => stage switch
        {
            CircuitStage circuit => new CircuitStage(In(circuit.Circuit)),
            TwoPortStage twoPort => new TwoPortStage(In(twoPort.TwoPort)),
            BypassStage bypass => new BypassStage(In(bypass.Bypass)),
            _ => stage,
        })],
        Selectivity = receiver.Selectivity is { TwoPort: { } front } selectivity
            ? selectivity with { TwoPort = In(front) }
            : receiver.Selectivity,
        Antenna = In(receiver.Antenna),
    };

    /// <summary>An emitter with its files named so.</summary>
    public EmitterEntry In(EmitterEntry emitter) => emitter with
    {
        OutputFilter = emitter.OutputFilter is { } filter ? In(filter) : null,
        Antenna = In(emitter.Antenna),
    };

    private AntennaEntry? In(AntennaEntry? antenna) => antenna?.Response is { TwoPort: { } sweep } response
        ? antenna with { Response = response with { TwoPort = In(sweep) } }
        : antenna;

    private FileReference In(FileReference reference) => reference with { Path = Of(reference.Path) };
}
