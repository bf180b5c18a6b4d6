using System.Globalization;

namespace Spurless.Fuzz;

/// <summary>Words of a command line: <c>--name value</c>, and the rest.</summary>
internal sealed class Arguments
{
    private readonly Dictionary<string, string> _named = new(StringComparer.Ordinal);

    public Arguments(string[] args)
    {
        List<string> rest = [];
        for (int i = 0; i < args.Length; i++)
        {
            if (args[i].StartsWith("--", StringComparison.Ordinal) && i + 1 < args.Length)
            {
                _named[args[i]] = args[++i];
            }
            else
            {
                rest.Add(args[i]);
            }
        }

        Rest = rest;
    }

    /// <summary>Words without a name.</summary>
    public IReadOnlyList<string> Rest { get; }

    /// <summary>A text by its name.</summary>
    public string? Text(string name) => _named.GetValueOrDefault(name);

    /// <summary>A number by its name.</summary>
    public double? Number(string name) =>
        _named.TryGetValue(name, out string? text) ? double.Parse(text, CultureInfo.InvariantCulture) : null;
}
