using System.CommandLine;
using System.Text.Encodings.Web;
using System.Text.Json;
using Spurless.CommandLine;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Documents.Requirements;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>schema KIND</c>: the JSON Schema of a file format.</summary>
internal static class SchemaCommand
{
    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static Command Create(ITerminal terminal)
    {
        Argument<string> kind = OptionKinds.Word("KIND", "of which files", "site", "circuit", "requirement", "bypass", "receiver");
        Verb schema = new("schema", "prints the JSON Schema of a file format, with which an editor completes keys")
        {
            Details = "Made from the code that reads the files (JSON Schema 2020-12).",
            Examples = [new("schema site --out site.schema.json", "For an editor that checks YAML against a schema.")],
        };
        schema.Add(kind);
        schema.Does(terminal, new OutputOptions("text"), (context, _) =>
        {
            string text = context.Value(kind) switch
            {
                "circuit" => CircuitReader.Schema().ToJsonString(Indented) + "\n",
                "requirement" => RequirementSchema.Text(),
                "bypass" => BypassSchema.Text(),
                "receiver" => MeasurementSchema.Text(),
                _ => SiteSchema.Text(),
            };
            return Task.FromResult(context.Write(to => to.Write(text)));
        });
        return schema;
    }
}
