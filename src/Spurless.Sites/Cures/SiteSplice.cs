using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Plans;

namespace Spurless.Sites.Cures;

/// <summary>
/// Writes a step of a cure into the text of a site file; comments and all else stay. What is studied for the list is read of this very
/// text, so that a cure that is applied gives what the list promised.
/// </summary>
internal static class SiteSplice
{
    /// <summary>Writes a step.</summary>
    /// <param name="text">The site file's text.</param>
    /// <param name="site">The site as read of it.</param>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="step">The step.</param>
    /// <param name="files">Takes the text of a file that the step needs, by its path.</param>
    /// <param name="made">Makes such files.</param>
    /// <returns>The text; null where the step cannot be done here.</returns>
    public static string? Write(
        string text, SiteDocument site, int receiver, CureStep step, Dictionary<string, string> files, MadeFiles made)
    {
        YamlPath at = YamlPath.Root.Key("receivers").Item(receiver);
        ReceiverEntry entry = site.Receivers[receiver];
        switch (step)
        {
            case PadStep pad:
                return Insert(text, at, entry, pad.Place, YamlValue.Map(("attenuator", YamlValue.Of(Db(pad.Db)))));
            case UsualFilterStep { Filter: var filter } usual:
                if (made.Of(filter) is not { } circuit)
                {
                    return null;
                }

                files[filter.Path] = circuit;
                return Insert(text, at, entry, usual.Place, YamlValue.Map(("circuit", YamlValue.Of(filter.Path))));
            case FileFilterStep file:
                return Insert(
                    text, at, entry, file.Place, YamlValue.Map((file.IsCircuit ? "circuit" : "two_port", YamlValue.Of(file.Path))));
            case AmplifierStep amplifier:
                return Amplifier(text, receiver, entry, amplifier.BehindFilter);
            case InterceptStep intercept:
                return Intercepts(text, at, entry, intercept.ByDb);
            case TransmitterStep transmitter:
                int index = site.Emitters.ToList().FindIndex(e => e.Name == transmitter.Transmitter);
                return index < 0 ? null : Transmitter(text, site, index, transmitter, files, made);
            case ChannelStep channel:
                return MovedText.Of(text, site, receiver, channel.FrequencyHz, shiftHz: null);
            default:
                return text;
        }
    }

    /// <summary>The place of the first preamplifier; the chain's length where there is none.</summary>
    public static int PlaceOf(ReceiverEntry entry, ChainPlace place)
    {
        int first = entry.Chain.ToList().FindIndex(static s => s is AmplifierStage);
        return place == ChainPlace.BeforeAmplifier && first >= 0 ? first : entry.Chain.Count;
    }

    private static string? Insert(string text, YamlPath receiver, ReceiverEntry entry, ChainPlace place, YamlValue stage) =>
        entry.Chain.Count == 0
            ? Key(text, receiver, "chain", YamlValue.List(stage))
            : YamlEditor.TryInsertItem(text, receiver.Key("chain"), PlaceOf(entry, place), stage, out string? edited, out _)
                ? edited
                : null;

    private static string? Amplifier(string text, int receiver, ReceiverEntry entry, bool behindFilter)
    {
        YamlPath chain = YamlPath.Root.Key("receivers").Item(receiver).Key("chain");
        int from = PlaceOf(entry, ChainPlace.BeforeAmplifier);
        int last = entry.Chain.ToList().FindLastIndex(static s => s is CircuitStage or TwoPortStage or BypassStage);
        if (from >= entry.Chain.Count || (behindFilter && last < from))
        {
            return null;
        }

        if (!behindFilter)
        {
            return entry.Chain.Count == 1
                ? Removed(text, chain)
                : Removed(text, chain.Item(from));
        }

        YamlSequence? receivers = YamlReader.Read(text, "", new DiagnosticBag())?.Value("receivers") as YamlSequence;
        YamlNode? stage = ((receivers?.Items[receiver] as YamlMapping)?.Value("chain") as YamlSequence)?.Items[from];
        return stage is not null && YamlEditor.TryInsertItem(text, chain, last + 1, YamlValue.Of(stage), out string? edited, out _)
            ? Removed(edited, chain.Item(from))
            : null;
    }

    private static string? Intercepts(string text, YamlPath receiver, ReceiverEntry entry, double byDb)
    {
        string? edited = text;
        foreach ((int order, Level level) in entry.Intercepts.OrderBy(static i => i.Key))
        {
            edited = edited is null
                ? null
                : Set(edited, receiver.Key("iip" + order.ToString(CultureInfo.InvariantCulture)), Dbm(level.Dbm + byDb));
        }

        // IIP3 = S + 1.5 R + ...: the rejection rises by two thirds of what the intercept does.
        if (entry.IntermodRejection is { } rejection && edited is not null)
        {
            edited = Set(edited, receiver.Key("intermod_rejection").Key("by"), Db(rejection.By.Value + (byDb / 1.5)));
        }

        return edited == text ? null : edited;
    }

    private static string? Transmitter(
        string text, SiteDocument site, int index, TransmitterStep step, Dictionary<string, string> files, MadeFiles made)
    {
        EmitterEntry emitter = site.Emitters[index];
        YamlPath at = YamlPath.Root.Key("emitters").Item(index);
        switch (step)
        {
            case IsolatorStep isolator:
                YamlValue points = YamlValue.List(
                    [.. isolator.AgainstHz.Select(f => YamlValue.Of($"{Db(isolator.Db)} at {Mega(f)}"))]);
                return emitter.Isolator is null ? Key(text, at, "isolator", points) : Set(text, at.Key("isolator"), points);
            case OutputCavityStep cavity:
                string path = $"ways/cavity-{MegahertzText.Of(cavity.CentreHz, 0, 6)}.s2p";
                if (emitter.OutputFilter is not null || made.Cavity(cavity.CentreHz) is not { } sweep)
                {
                    return null;
                }

                files[path] = sweep;
                return Key(text, at, "output_filter", YamlValue.Of(path));
            case AntennaStep antenna:
                return Couplings(text, at, site, emitter, antenna);
            case PowerStep power:
                return Power(text, at, emitter, power.ByDb);
            default:
                return null;
        }
    }

    private static string? Couplings(string text, YamlPath at, SiteDocument site, EmitterEntry emitter, AntennaStep step)
    {
        string? edited = text;
        bool there = emitter.Source.Fields.ContainsKey("coupling");
        foreach ((string from, double db) in step.Couplings)
        {
            if (edited is null)
            {
                return null;
            }

            YamlValue value = YamlValue.Of(Db(db));
            int other = site.Emitters.ToList().FindIndex(e => e.Name == from);
            if (other >= 0 && site.Emitters[other].CouplingTo.ContainsKey(emitter.Name))
            {
                // It is said at the other end, and perhaps here too.
                edited = Set(edited, YamlPath.Root.Key("emitters").Item(other).Key("coupling_to").Key(emitter.Name), value);
                if (edited is null || !emitter.Source.Fields.ContainsKey("coupling." + from))
                {
                    continue;
                }
            }

            edited = !there ? Key(edited, at, "coupling", YamlValue.Map((from, value)))
                : emitter.Coupling.ContainsKey(from) ? Set(edited, at.Key("coupling").Key(from), value)
                : Key(edited, at.Key("coupling"), from, value);
            there = true;
        }

        return edited;
    }

    private static string? Power(string text, YamlPath at, EmitterEntry emitter, double byDb)
    {
        string? edited = text;
        void Change(YamlPath path, string value) => edited = edited is null ? null : Set(edited, path, value);
        foreach ((string key, Power? power) in new[] { ("power", emitter.Power), ("erp", emitter.Erp), ("eirp", emitter.Eirp) })
        {
            if (power is { } stated)
            {
                Change(at.Key(key), (stated.Watts * Math.Pow(10, -byDb / 10)).ToString("0.######", CultureInfo.InvariantCulture) + " W");
            }
        }

        if (emitter.Level is { } level)
        {
            Change(at.Key("level"), Dbm(level.Dbm - byDb));
        }

        foreach ((string receiver, Level one) in emitter.LevelPerReceiver)
        {
            Change(at.Key("level").Key(receiver), Dbm(one.Dbm - byDb));
        }

        return edited == text ? null : edited;
    }

    private static string? Set(string text, YamlPath path, string value) => Set(text, path, YamlValue.Of(value));

    private static string? Set(string text, YamlPath path, YamlValue value) =>
        YamlEditor.TrySet(text, path, value, out string? edited, out _) ? edited : null;

    private static string? Key(string text, YamlPath mapping, string key, YamlValue value) =>
        YamlEditor.TryInsertKey(text, mapping, key, value, out string? edited, out _) ? edited : null;

    private static string? Removed(string text, YamlPath path) =>
        YamlEditor.TryRemove(text, path, out string? edited, out _) ? edited : null;

    private static string Db(double value) => value.ToString("0.###", CultureInfo.InvariantCulture) + " dB";

    private static string Dbm(double value) => value.ToString("0.###", CultureInfo.InvariantCulture) + " dBm";

    private static string Mega(long hertz) => MegahertzText.Of(hertz, 0, 6) + " MHz";
}
