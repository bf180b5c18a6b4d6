using System.Globalization;

namespace Spurless.CommandLine;

/// <summary>Tiles of a screening, both inclusive: <c>1-40</c>.</summary>
/// <param name="First">The first, from 1.</param>
/// <param name="Last">The last.</param>
internal readonly record struct TileRange(int First, int Last)
{
    /// <summary>Reads it.</summary>
    public static bool TryParse(string text, out TileRange value, out string problem)
    {
        string[] parts = text.Split('-', StringSplitOptions.TrimEntries);
        int last = 0;
        bool good = int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int first)
            && int.TryParse(parts[^1], NumberStyles.None, CultureInfo.InvariantCulture, out last)
                && parts.Length <= 2
                && first >= 1
                && last >= first;
        value = new TileRange(first, last);
        problem = $"'{text.Trim()}' is no range of tiles; write it like 1-40";
        return good;
    }
}
