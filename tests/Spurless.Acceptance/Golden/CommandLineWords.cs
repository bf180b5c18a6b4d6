using System.Text;

namespace Spurless.Acceptance.Golden;

/// <summary>A command line of <c>commands.txt</c> cut into words: blanks part them, double quotes hold them together.</summary>
internal static class CommandLineWords
{
    public static string[] Of(string line)
    {
        List<string> words = [];
        StringBuilder word = new();
        bool quoted = false;
        bool begun = false;
        foreach (char c in line)
        {
            if (c == '"')
            {
                quoted = !quoted;
                begun = true;
            }
            else if (c == ' ' && !quoted)
            {
                if (begun)
                {
                    words.Add(word.ToString());
                    word.Clear();
                    begun = false;
                }
            }
            else
            {
                word.Append(c);
                begun = true;
            }
        }

        if (begun)
        {
            words.Add(word.ToString());
        }

        return [.. words];
    }
}
