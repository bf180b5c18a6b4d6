using System.Diagnostics.CodeAnalysis;
using System.Text.Json.Nodes;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>A single value that a parser reads.</summary>
internal sealed class ScalarShape<T>(string wanted, TextParser<T> parser, Func<JsonObject> schema) : Shape<T>
{
    public override string Wanted => wanted;

    public override JsonObject Describe() => schema();

    public override bool TryRead(YamlNode node, DiagnosticBag diagnostics, [MaybeNullWhen(false)] out T value)
    {
        if (node is not YamlScalar scalar || scalar.IsMissing)
        {
            Mismatch(node, diagnostics);
            value = default;
            return false;
        }

        if (parser(scalar.Text, out value, out string problem))
        {
            return true;
        }

        Refusal refusal = Refusal.OfParser(problem, $"write {wanted}");
        node.Error(diagnostics, refusal.What, refusal.Remedy);
        value = default;
        return false;
    }
}

/// <summary>The value of another shape, checked or turned into something else.</summary>
internal sealed class ConvertedShape<TIn, TOut>(
    Shape<TIn> inner, Func<TIn, YamlNode, TOut> convert, Func<TIn, Refusal?>? refuses) : Shape<TOut>
{
    public override string Wanted => inner.Wanted;

    public override JsonObject Describe() => inner.Describe();

    public override bool TryRead(YamlNode node, DiagnosticBag diagnostics, [MaybeNullWhen(false)] out TOut value)
    {
        if (!inner.TryRead(node, diagnostics, out TIn? read))
        {
            value = default;
            return false;
        }

        if (refuses?.Invoke(read) is { } wrong)
        {
            node.Error(diagnostics, wrong.What, wrong.Remedy);
            value = default;
            return false;
        }

        value = convert(read, node);
        return true;
    }
}
