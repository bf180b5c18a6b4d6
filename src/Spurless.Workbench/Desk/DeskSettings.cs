using System.Collections.Immutable;
using System.Globalization;

namespace Spurless.Workbench.Desk;

/// <summary>
/// What was changed at the desk and not kept: values by the id of their item. Immutable; as text it goes into an address.
/// </summary>
public sealed class DeskSettings : IEquatable<DeskSettings>
{
    private readonly ImmutableSortedDictionary<string, double> _values;

    private DeskSettings(ImmutableSortedDictionary<string, double> values) => _values = values;

    /// <summary>Nothing changed.</summary>
    public static DeskSettings None { get; } = new(ImmutableSortedDictionary.Create<string, double>(StringComparer.Ordinal));

    /// <summary>Ids of what was changed, in ordinal order.</summary>
    public IEnumerable<string> Ids => _values.Keys;

    /// <summary>Whether nothing was changed.</summary>
    public bool IsEmpty => _values.IsEmpty;

    /// <summary>An item's value as set, else as in the file.</summary>
    public double Of(DeskItem item) => _values.TryGetValue(item.Id, out double value) ? value : item.FileValue;

    /// <summary>Whether an item was changed.</summary>
    public bool Has(string id) => _values.ContainsKey(id);

    /// <summary>The settings with one item set; set to its value in the file it counts as not changed.</summary>
    public DeskSettings With(DeskItem item, double value)
    {
        ArgumentNullException.ThrowIfNull(item);
        return new DeskSettings(value.Equals(item.FileValue) ? _values.Remove(item.Id) : _values.SetItem(item.Id, value));
    }

    /// <summary>
    /// Those of these settings that a desk still knows, that may stand there and that differ from its file: an address may say anything.
    /// </summary>
    public DeskSettings Known(IEnumerable<DeskItem> items)
    {
        DeskSettings known = None;
        foreach (DeskItem item in items)
        {
            if (_values.TryGetValue(item.Id, out double value) && item.Takes(value))
            {
                known = known.With(item, value);
            }
        }

        return known;
    }

    /// <summary>As text: <c>chain.1=0;receiver.0.iip3=-5</c>, each part with what has a meaning there in per cent.</summary>
    public override string ToString() => string.Join(
        ';', _values.Select(static v => Uri.EscapeDataString(v.Key) + "=" + v.Value.ToString("R", CultureInfo.InvariantCulture)));

    /// <summary>Reads the text of <see cref="ToString"/>; what cannot be read is left out.</summary>
    public static DeskSettings Parse(string? text)
    {
        ImmutableSortedDictionary<string, double> values = None._values;
        foreach (string part in (text ?? "").Split(';', StringSplitOptions.RemoveEmptyEntries).Take(200))
        {
            int at = part.LastIndexOf('=');
            if (at > 0
                && double.TryParse(part.AsSpan(at + 1), NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
                && double.IsFinite(value))
            {
                values = values.SetItem(Uri.UnescapeDataString(part[..at]), value);
            }
        }

        return new DeskSettings(values);
    }

    /// <inheritdoc/>
    public bool Equals(DeskSettings? other) => other is not null && _values.SequenceEqual(other._values);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as DeskSettings);

    /// <inheritdoc/>
    public override int GetHashCode() => _values.Aggregate(0, static (h, v) => HashCode.Combine(h, v.Key, v.Value));
}
