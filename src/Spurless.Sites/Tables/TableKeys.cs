namespace Spurless.Sites.Tables;

/// <summary>A key of an emitter that a column may hold.</summary>
/// <param name="Key">The key as the site file writes it.</param>
/// <param name="Units">The units that its bare numbers may be in, the usual one first; empty where it takes none.</param>
/// <param name="Words">Heads by which it is known, in small letters.</param>
public sealed record TableKey(string Key, IReadOnlyList<string> Units, IReadOnlyList<string> Words);

/// <summary>The keys of an emitter, and the heads that people write over them.</summary>
public static class TableKeys
{
    private static readonly string[] Powers = ["W", "kW", "mW", "dBm", "dBW"];
    private static readonly string[] Lengths = ["m", "km", "ft", "mi"];

    /// <summary>All of them, the most telling first.</summary>
    public static IReadOnlyList<TableKey> All { get; } =
    [
        new("name", [], ["name", "station", "callsign", "call sign", "licensee", "user", "holder", "emitter", "transmitter",
            "description", "service", "label", "site", "who", "remark"]),
        new("frequency", ["MHz", "kHz", "Hz", "GHz"], ["frequency", "freq", "carrier", "f", "tx", "rx", "frequenz", "fr\u00E9quence",
            "frecuencia", "frequenza", "frequentie"]),
        new("emission", [], ["emission", "designator", "emission designator", "class of emission"]),
        new("bandwidth", ["kHz", "MHz", "Hz"], ["bandwidth", "width", "occupied bandwidth", "bw"]),
        new("level", ["dBm", "dBW", "dBuV pd", "dBuV emf", "uV pd", "uV emf"], ["level", "signal", "rssi", "strength", "signal strength",
            "received", "received level", "measured", "pegel", "niveau"]),
        new("power", Powers, ["power", "output", "watts", "leistung", "puissance"]),
        new("erp", Powers, ["erp"]),
        new("eirp", Powers, ["eirp"]),
        new("feedline", ["dB"], ["feedline", "feeder", "feeder loss", "line loss", "cable loss"]),
        new("antenna.gain", ["dBi", "dBd"], ["gain", "antenna gain"]),
        new("antenna.height", Lengths, ["height", "antenna height", "agl", "height above ground"]),
        new("antenna.bearing", [], ["azimuth", "antenna azimuth", "beam", "direction of beam"]),
        new("distance", ["km", "m", "mi"], ["distance", "range"]),
        new("bearing", [], ["bearing"]),
        new("at.latitude", [], ["latitude", "lat"]),
        new("at.longitude", [], ["longitude", "lon", "long", "lng"]),
        new("ground", Lengths, ["ground", "elevation", "asl", "amsl", "ground height"]),
        new("activity", ["%"], ["activity", "duty", "on air", "duty cycle"]),
        new("uncertainty", ["dB"], ["uncertainty", "sigma"]),
    ];

    /// <summary>A key; null where there is none of that name.</summary>
    public static TableKey? Of(string? key) => All.FirstOrDefault(k => k.Key == key);

    /// <summary>The unit that a head names, and the head without it.</summary>
    internal static (string Words, string? Unit) Parts(string head)
    {
        string clean = head.Trim().ToLowerInvariant();
        foreach (string unit in All.SelectMany(static k => k.Units).Distinct().OrderByDescending(static u => u.Length))
        {
            string small = unit.ToLowerInvariant();
            foreach (string form in (ReadOnlySpan<string>)[$"({small})", $"[{small}]"])
            {
                if (clean.Contains(form, StringComparison.Ordinal))
                {
                    return (Plain(clean.Replace(form, " ", StringComparison.Ordinal)), unit);
                }
            }

            foreach (string form in (ReadOnlySpan<string>)[$"/ {small}", $"/{small}", $" in {small}", $"_{small}", $" {small}",
                $", {small}"])
            {
                if (clean.EndsWith(form, StringComparison.Ordinal))
                {
                    return (Plain(clean[..^form.Length]), unit);
                }
            }

            if (clean == small)
            {
                return ("", unit);
            }
        }

        return (Plain(clean), clean is "watts" or "watt" ? "W" : null);
    }

    // An underscore and a full stop are blanks; what stands in brackets beside the words is a remark.
    private static string Plain(string head)
    {
        int bracket = head.AsSpan().IndexOfAny('(', '[');
        string words = (bracket > 0 ? head[..bracket] : head).Replace('_', ' ').Replace('.', ' ').Replace('-', ' ').Trim(' ', ':', '#');
        return string.Join(' ', words.Split(' ', StringSplitOptions.RemoveEmptyEntries));
    }

    /// <summary>How well a head fits a key: 0 not at all. Of two frequencies an emitter has the one that is transmitted.</summary>
    internal static int Fit(string head, TableKey key)
    {
        if (head.Equals(key.Key, StringComparison.OrdinalIgnoreCase))
        {
            return 100;
        }

        (string words, string? unit) = Parts(head);
        string[] each = words.Split(' ');
        bool receives = each.Any(static w => w is "rx" or "receive" or "input" or "mobile") && key.Key == "frequency";
        bool transmits = each.Any(static w => w is "tx" or "transmit" or "transmitter" or "output" or "base");
        if (words.Length == 0)
        {
            // A unit alone is a head too; which of the keys with that unit is meant, the usual one says.
            return unit is not null && key.Units.Count > 0 && key.Units.Contains(unit)
                && key.Key is "frequency" or "level" or "power" or "antenna.gain" or "distance" ? 40 : 0;
        }

        int fit = key.Words.Contains(words) ? 80
            : key.Words.Any(each.Contains) ? 50
            : key.Words.Any(w => w.Contains(' ', StringComparison.Ordinal) && words.Contains(w, StringComparison.Ordinal)) ? 55 : 0;
        fit = fit > 0 && unit is not null && !key.Units.Contains(unit) ? 0 : fit;
        return receives ? fit / 4 : transmits && key.Key is "frequency" or "power" && fit > 0 ? fit + 10 : fit;
    }
}
