using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>Couplings between transmitters can be said at either end: here both ways become one.</summary>
internal static class CouplingEnds
{
    /// <summary>Emitters whose <see cref="EmitterEntry.Coupling"/> has what others say by <see cref="EmitterEntry.CouplingTo"/>.</summary>
    /// <param name="emitters">All emitters that may be meant; names beyond them are left alone.</param>
    public static IReadOnlyList<EmitterEntry> Joined(IReadOnlyList<EmitterEntry> emitters)
    {
        if (emitters.All(static e => e.CouplingTo.Count == 0))
        {
            return emitters;
        }

        return
        [
            .. emitters.Select(to => emitters.Where(from => from.CouplingTo.ContainsKey(to.Name)).ToArray() is { Length: > 0 } said
                ? to with { Coupling = With(to, said) }
                : to),
        ];
    }

    /// <summary>Finds couplings that are said at both ends and differ.</summary>
    /// <param name="emitters">The emitters of a file.</param>
    /// <param name="beside">Those of a site beside it.</param>
    /// <param name="diagnostics">Takes what is wrong, at the end that says it outward.</param>
    public static void Check(IReadOnlyList<EmitterEntry> emitters, IReadOnlyList<EmitterEntry> beside, DiagnosticBag diagnostics)
    {
        foreach (EmitterEntry from in emitters)
        {
            foreach ((string to, Decibels loss) in from.CouplingTo)
            {
                if (emitters.Concat(beside).FirstOrDefault(e => e.Name == to) is { } target
                    && target.Coupling.TryGetValue(from.Name, out Decibels other) && other != loss)
                {
                    from.Source.Error(
                        diagnostics, $"coupling_to.{to}",
                        $"{loss} from '{Quote.Short(from.Name)}' to '{Quote.Short(to)}' here, and {other} where that one says it",
                        "keep one of the two");
                }
            }
        }
    }

    private static Dictionary<string, Decibels> With(EmitterEntry to, EmitterEntry[] said)
    {
        Dictionary<string, Decibels> all = new(to.Coupling, StringComparer.Ordinal);
        foreach (EmitterEntry from in said)
        {
            all.TryAdd(from.Name, from.CouplingTo[to.Name]);
        }

        return all;
    }
}
