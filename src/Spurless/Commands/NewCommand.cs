using System.CommandLine;
using Spurless.Circuits.Documents;
using Spurless.Circuits.Requirements;
using Spurless.CommandLine;
using Spurless.Sites.Documents;
using Spurless.Terminals;

namespace Spurless.Commands;

/// <summary><c>new KIND</c>: a commented template to fill in.</summary>
internal static class NewCommand
{
    public static Command Create(ITerminal terminal)
    {
        Argument<string> kind = OptionKinds.Word("KIND", "what to begin", "site", "circuit", "requirement");
        Verb create = new("new", "writes a commented template to fill in")
        {
            Details = "The template is a file that works: change it to what you have. A file that is there already is not touched.",
            Examples =
            [
                new("new site --out my.site.yaml", "Begins a site file; 'spurless check my.site.yaml' says what is wrong with it."),
                new("new circuit --out my.circuit.yaml", "Begins a circuit file."),
                new("new requirement --out my.requirement.yaml", "Begins a file that says what a filter must do."),
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
                _ => SiteTemplate.Text,
            };
            return Task.FromResult(context.Write(to => to.Write(template.ReplaceLineEndings("\n"))));
        });
        return create;
    }
}
