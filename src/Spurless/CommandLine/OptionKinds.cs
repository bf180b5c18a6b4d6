using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using Spurless.Files;
using Spurless.Radio.Quantities;

namespace Spurless.CommandLine;

/// <summary>
/// The kinds of options and arguments that commands have. All of them refuse a value that begins with <c>--</c>, which the parser
/// would take: it is the next option, and the value was forgotten.
/// </summary>
internal static class OptionKinds
{
    /// <summary>An option without a value.</summary>
    public static Option<bool> Switch(string name, string purpose) => new(name) { Description = purpose, Arity = ArgumentArity.Zero };

    /// <summary>An option whose value is any text.</summary>
    public static Option<string?> Text(string name, string valueName, string purpose) => new(name)
    {
        Description = purpose,
        HelpName = valueName,
        Arity = ArgumentArity.ExactlyOne,
        CustomParser = result => Value(result, name),
    };

    /// <summary>An option whose value is one of a few words; the first is the default.</summary>
    public static Option<string> Choice(string name, string purpose, params string[] words) => new(name)
    {
        Description = $"{purpose}; default {words[0]}",
        HelpName = string.Join('|', words),
        Arity = ArgumentArity.ExactlyOne,
        DefaultValueFactory = _ => words[0],
        CustomParser = result => OneOf(result, name, words) ?? words[0],
    };

    /// <summary>An option whose value is read by a parser; null where it is not given.</summary>
    public static Option<T?> Parsed<T>(string name, string valueName, string purpose, TextParser<T> parser)
        where T : struct => new(name)
        {
            Description = purpose,
            HelpName = valueName,
            Arity = ArgumentArity.ExactlyOne,
            CustomParser = result => Read(result, name, parser),
        };

    /// <summary>A required argument that is one of a few words.</summary>
    public static Argument<string> Word(string name, string purpose, params string[] words) => new(name)
    {
        Description = $"{purpose}: {string.Join(", ", words)}",
        HelpName = string.Join('|', words),
        Arity = ArgumentArity.ExactlyOne,
        CustomParser = result => OneOf(result, name, words) ?? "",
    };

    /// <summary>A required argument that names a file.</summary>
    public static Argument<string> File(string name, string purpose) => new(name)
    {
        Description = purpose,
        HelpName = name,
        Arity = ArgumentArity.ExactlyOne,
        CustomParser = result => Value(result, name) ?? "",
    };

    /// <summary>An argument that names a file or folder and may be left out.</summary>
    public static Argument<string> OptionalFile(string name, string purpose, string otherwise) => new(name)
    {
        Description = purpose,
        HelpName = name,
        Arity = ArgumentArity.ZeroOrOne,
        DefaultValueFactory = _ => otherwise,
        CustomParser = result => Value(result, name) ?? otherwise,
    };

    /// <summary>A required argument that is read by a parser.</summary>
    public static Argument<T?> Required<T>(string name, string purpose, TextParser<T> parser)
        where T : struct => new(name)
        {
            Description = purpose,
            HelpName = name,
            Arity = ArgumentArity.ExactlyOne,
            CustomParser = result => Read(result, name, parser),
        };

    private static string? Value(ArgumentResult result, string name)
    {
        if (result.Tokens.Count != 1)
        {
            return null;
        }

        string text = result.Tokens[0].Value;
        if (text.StartsWith("--", StringComparison.Ordinal))
        {
            result.AddError($"{name} has no value: '{text}' reads as the next option; write the value after {name}");
            return null;
        }

        if (text.Length == 0)
        {
            result.AddError($"{name} is empty; write its value, or leave it out");
            return null;
        }

        return text;
    }

    private static string? OneOf(ArgumentResult result, string name, string[] words)
    {
        if (Value(result, name) is not { } text)
        {
            return null;
        }

        if (!words.Contains(text, StringComparer.Ordinal))
        {
            result.AddError($"'{text}' is no {name.TrimStart('-')} here; write {Alternatives(words)}");
            return null;
        }

        return text;
    }

    /// <summary>Reads a width, raster or shift such as <c>12.5 kHz</c>: a number without unit is offered in kilohertz.</summary>
    public static bool TryParseWidth(string text, out Frequency value, out string problem)
    {
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out _))
        {
            value = default;
            problem = $"'{text.Trim()}' has no unit; write {text.Trim()} kHz";
            return false;
        }

        return Frequency.TryParse(text, out value, out problem);
    }

    private static T? Read<T>(ArgumentResult result, string name, TextParser<T> parser)
        where T : struct
    {
        if (Value(result, name) is not { } text)
        {
            return null;
        }

        if (!parser(text, out T value, out string problem))
        {
            result.AddError($"{name}: {problem}");
            return null;
        }

        return value;
    }

    private static string Alternatives(string[] words) => words.Length == 1 ? words[0] : $"{string.Join(", ", words[..^1])} or {words[^1]}";
}
