using System.CommandLine;
using Spurless.CommandLine;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Documents.Requirements;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>new KIND</c>: a commented template to fill in.</summary>
internal static class NewCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> kind = OptionKinds.Word("KIND", "what to begin", "site", "circuit", "requirement", "bypass", "receiver");
        Verb create = new("new", "writes a commented template to fill in")
        {
            Details = "The template is a file that works: change it to what you have. A file that is there already is not touched.",
            Examples =
            [
                new("new site --out my.site.yaml", "Begins a site file; 'spurless check my.site.yaml' says what is wrong with it."),
                new("new circuit --out my.circuit.yaml", "Begins a circuit file."),
                new("new requirement --out my.requirement.yaml", "Begins a file that says what a filter must do."),
                new("new bypass --out my.bypass.yaml", "Begins a file of a relay round a filter."),
                new("new receiver --out my.receiver.yaml", "Begins a file of a receiver's measurements."),
            ],
        };
        create.Add(kind);
        create.Does(terminal, new OutputOptions("text"), (context, _) =>
        {
            if (context.Out is { } path && File.Exists(path))
            {
                throw new UsageException($"--out: '{path}' is there already and would be lost; write another name");
            }

            string template = context.Value(kind) switch
            {
                "circuit" => CircuitTemplate.Text,
                "requirement" => RequirementTemplate.Text,
                "bypass" => BypassTemplate.Text,
                "receiver" => MeasurementTemplate.Text,
                _ => SiteTemplate.Text,
            };
            return Task.FromResult(context.Write(to => to.Write(template.ReplaceLineEndings("\n"))));
        });
        return create;
    }
}
