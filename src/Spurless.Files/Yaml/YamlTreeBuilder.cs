using Spurless.Files.Diagnostics;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Spurless.Files.Yaml;

/// <summary>
/// Builds the tree from the library's parser events. The library's own tree is not used: it stops at the first duplicate key, throws
/// exceptions without a position on some input, and recurses without a limit.
/// </summary>
internal sealed class YamlTreeBuilder
{
    private const string NoKey = "no key stands before the colon";
    private const string KeyRemedy = "write a plain word, a colon, a blank and the value";

    private readonly string _text;
    private readonly string _file;
    private readonly DiagnosticBag _diagnostics;
    private readonly LineMap _lines;
    private readonly Parser _parser;
    private YamlPosition _last;
    private bool _ended;

    /// <param name="text">The text.</param>
    /// <param name="file">The file's name as the user gave it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <param name="origin">Where the text begins in its file; null for a file of its own.</param>
    public YamlTreeBuilder(string text, string file, DiagnosticBag diagnostics, YamlPosition? origin = null)
    {
        _text = text;
        _file = file;
        _diagnostics = diagnostics;
        _last = origin ?? new YamlPosition(1, 1, 0);
        _lines = new LineMap(text, _last);
        _parser = new Parser(new StringReader(text));
    }

    /// <summary>The first document's node, or null where there is none.</summary>
    public YamlNode? Build()
    {
        if (Next() is not StreamStart || Next() is not { } first)
        {
            return null;
        }

        if (first is not DocumentStart)
        {
            _diagnostics.Error(_file, 0, 0, "the file is empty", "fill it in, or start from a template ('new')");
            return null;
        }

        ParsingEvent? start = Next();
        YamlNode? node = start is null ? null : Node(start, 1);
        if (start is not (null or NodeEvent))
        {
            // A colon that no key stands before, at the head of a file: the library ends the document there without a word.
            Error(_lines.At(start.Start.Index), NoKey, KeyRemedy);
            _ended = true;
        }

        if (!_ended && Next() is DocumentEnd && Next() is DocumentStart second)
        {
            Error(_lines.At(second.Start.Index), "a second document begins here", "keep one document in a file and delete the '---' line");
        }

        return node;
    }

    private ParsingEvent? Next()
    {
        if (_ended)
        {
            return null;
        }

        try
        {
            if (_parser.MoveNext() && _parser.Current is { } current)
            {
                _last = _lines.At(current.End.Index);
                return current;
            }
        }
        catch (YamlException e)
        {
            // An exception without a mark of its own has the zero mark; the last event's end is nearer the truth.
            SyntaxError(e.Start.Index > 0 || _last.Index == 0 ? _lines.At(e.Start.Index) : _last, e.Message);
        }
#pragma warning disable CA1031 // The library throws other types too on broken input; each means only that the text is no YAML.
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            SyntaxError(_last, e.Message);
        }
#pragma warning restore CA1031

        _ended = true;
        return null;
    }

    private YamlNode? Node(ParsingEvent start, int depth)
    {
        if (start is AnchorAlias)
        {
            Error(
                _lines.At(start.Start.Index),
                "an alias ('*name') is not allowed",
                "write the value out; put a text that begins with '*' in quotes");
            return null;
        }

        if (start is not NodeEvent node)
        {
            return null;
        }

        if (!node.Anchor.IsEmpty)
        {
            Error(
                _lines.At(start.Start.Index),
                "an anchor ('&name') is not allowed",
                "write the value out where it is needed; put a text that begins with '&' in quotes");
        }

        if (!node.Tag.IsEmpty)
        {
            Error(_lines.At(start.Start.Index), "a tag ('!name') is not allowed", "delete it; put a text that begins with '!' in quotes");
        }

        YamlPosition from = _lines.At(start.Start.Index);
        if (start is Scalar scalar)
        {
            YamlScalarStyle style = scalar.Style switch
            {
                ScalarStyle.SingleQuoted or ScalarStyle.DoubleQuoted => YamlScalarStyle.Quoted,
                ScalarStyle.Literal or ScalarStyle.Folded => YamlScalarStyle.Block,
                _ => YamlScalarStyle.Plain,
            };
            return new YamlScalar(_file, from, EndOf(from, scalar), scalar.Value, style);
        }

        if (depth > YamlReader.MaximumDepth)
        {
            Error(from, $"nested deeper than {YamlReader.MaximumDepth} levels", "close the brackets; no file of ours nests so deep");
            _ended = true;
            return null;
        }

        return start switch
        {
            SequenceStart s => Sequence(s, from, depth),
            MappingStart m => Mapping(m, from, depth),
            _ => null,
        };
    }

    private YamlSequence Sequence(SequenceStart start, YamlPosition from, int depth)
    {
        List<YamlNode> items = [];
        ParsingEvent? e;
        while ((e = Next()) is not null and not SequenceEnd)
        {
            if (Node(e, depth + 1) is { } item)
            {
                items.Add(item);
            }
        }

        return new YamlSequence(_file, from, EndOf(from, e), !_ended, items, start.Style == SequenceStyle.Flow);
    }

    private YamlMapping Mapping(MappingStart start, YamlPosition from, int depth)
    {
        List<YamlEntry> entries = [];
        Dictionary<string, YamlPosition> seen = new(StringComparer.Ordinal);
        bool whole = true;
        ParsingEvent? e;
        while ((e = Next()) is not null and not MappingEnd)
        {
            YamlNode? key = Node(e, depth + 1);
            YamlNode? value = Next() is { } v ? Node(v, depth + 1) : null;
            whole &= key is not null && value is not null;
            if (key is not null and not YamlScalar)
            {
                Error(key.Start, $"{key.Kind} where a key is due", KeyRemedy);
            }
            else if (key is YamlScalar { Text.Length: 0 })
            {
                Error(key.Start, NoKey, KeyRemedy);
                whole = false;
            }
            else if (key is YamlScalar name && !seen.TryAdd(name.Text, name.Start))
            {
                Error(
                    name.Start,
                    $"the key '{Quote.Short(name.Text)}' stands here a second time (first in line {seen[name.Text].Line})",
                    "keep one of the two");
            }
            else if (key is YamlScalar word && value is not null)
            {
                entries.Add(new YamlEntry(word, value));
            }
        }

        return new YamlMapping(_file, from, EndOf(from, e), whole && !_ended, entries, start.Style == MappingStyle.Flow);
    }

    /// <summary>
    /// The end of a node. The library's end mark of a flow list or mapping stands before the bracket, that of a missing value may stand
    /// before its start.
    /// </summary>
    private YamlPosition EndOf(YamlPosition from, ParsingEvent? e)
    {
        if (e is null)
        {
            return _last.Index < from.Index ? from : _last;
        }

        long at = Math.Max(e.End.Index, from.Index);
        bool bracket = at < _text.Length
            && e is SequenceEnd or MappingEnd
            && e.Start.Index == e.End.Index
            && _text[from.Index] is '[' or '{'
            && _text[(int)at] is ']' or '}';
        return _lines.At(bracket ? at + 1 : at);
    }

    private void Error(YamlPosition at, string what, string remedy) => _diagnostics.Error(_file, at.Line, at.Column, what, remedy);

    private void SyntaxError(YamlPosition at, string message)
    {
        if (TabNear(at.Index) is { } tab)
        {
            Error(_lines.At(tab), "a tab in the indentation", "indent with blanks; the rest of the file was not read");
            return;
        }

        string plain = message.ReplaceLineEndings(" ").Trim().TrimEnd('.');
        Error(
            at,
            $"this is not YAML ({Quote.Short(plain)})",
            "look for a missing colon, blank, quote or bracket, or a wrong indentation, "
                + "here or just before; the rest of the file was not read");
    }

    /// <summary>The first tab in the indentation of the line of a syntax error or of the next one.</summary>
    private int? TabNear(int index)
    {
        int start = index;
        while (start > 0 && _text[start - 1] is not ('\n' or '\r'))
        {
            start--;
        }

        int next = _text.IndexOfAny(['\n', '\r'], index);
        next = next < 0 ? _text.Length : next + (next + 1 < _text.Length && _text[next] == '\r' && _text[next + 1] == '\n' ? 2 : 1);
        foreach (int line in (int[])[start, next])
        {
            int i = line;
            while (i < _text.Length && _text[i] == ' ')
            {
                i++;
            }

            if (i < _text.Length && _text[i] == '\t')
            {
                return i;
            }
        }

        return null;
    }
}
