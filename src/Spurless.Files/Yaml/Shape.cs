using System.Diagnostics.CodeAnalysis;
using System.Text.Json.Nodes;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>
/// What may stand at one place of a file: the same object reads it and describes it for the JSON Schema, so the two cannot disagree.
/// </summary>
/// <typeparam name="T">What a reading gives.</typeparam>
public abstract class Shape<T>
{
    /// <summary>What to write, for messages: 'a frequency such as 145.05 MHz'.</summary>
    public abstract string Wanted { get; }

    /// <summary>Reads a node. What is wrong goes to <paramref name="diagnostics"/>.</summary>
    /// <returns>Whether there is a value. A value in spite of errors is possible (a mapping with one bad key): see
    /// <see cref="DiagnosticBag.HasErrors"/>.</returns>
    public abstract bool TryRead(YamlNode node, DiagnosticBag diagnostics, [MaybeNullWhen(false)] out T value);

    /// <summary>The JSON Schema (2020-12) of this place, a new object at each call.</summary>
    public abstract JsonObject Describe();

    /// <summary>Reports that something else stands there.</summary>
    private protected void Mismatch(YamlNode node, DiagnosticBag diagnostics) =>
        node.Error(
            diagnostics,
            node is YamlScalar { IsMissing: true }
                ? "there is no value"
                : node is YamlScalar s ? $"'{Quote.Short(s.Text)}' is {s.Kind}"
                : $"{node.Kind} stand{(node is YamlMapping ? "" : "s")} here",
            $"write {Wanted}");
}
