using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Evidence.Log;

/// <summary>
/// The head of a log at one size, after C2SP tlog-checkpoint: three lines, which are what is signed. Extension lines,
/// which C2SP allows and advises against, are not read.
/// </summary>
public sealed record Checkpoint
{
    /// <summary>What its text is, for error texts.</summary>
    public const string AcceptedForm = "three lines: the log's name, its size, its root in base64";

    /// <summary>A head of a log.</summary>
    /// <param name="origin">Name of the log: one line, not empty.</param>
    /// <param name="size">Number of entries.</param>
    /// <param name="root">Root of their tree.</param>
    /// <exception cref="ArgumentException">The origin is no line, or the size is negative.</exception>
    public Checkpoint(string origin, long size, TreeHash root)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(size);
        if (!LogText.IsLine(origin))
        {
            throw new ArgumentException("an origin is one line that is not empty", nameof(origin));
        }

        (Origin, Size, Root) = (origin, size, root);
    }

    /// <summary>Name of the log, the same for as long as it lives.</summary>
    public string Origin { get; }

    /// <summary>Number of entries, from 0.</summary>
    public long Size { get; }

    /// <summary>Root of the tree over the entries.</summary>
    public TreeHash Root { get; }

    /// <summary>The text that is signed; its last line ends in a newline as well.</summary>
    public string Text => $"{Origin}\n{LogText.Number(Size)}\n{Root}\n";

    /// <summary>The text that is signed.</summary>
    public override string ToString() => Text;

    internal static bool TryRead(
        string text,
        int firstLine,
        [NotNullWhen(true)] out Checkpoint? checkpoint,
        out ImmutableArray<LogTextFault> faults
    )
    {
        checkpoint = null;
        var lines = LogText.Lines(text);
        if (lines.Length != 3)
        {
            faults = LogText.One(
                firstLine + Math.Min(lines.Length, 3),
                lines.Length > 3 ? LogText.Quoted(lines[3]) : "the end of the checkpoint",
                AcceptedForm
            );
            return false;
        }

        var found = ImmutableArray.CreateBuilder<LogTextFault>();
        if (lines[0].Length == 0)
        {
            found.Add(new LogTextFault(firstLine, "an empty line", "the name of the log"));
        }

        if (!LogText.TryNumber(lines[1], out var size))
        {
            found.Add(new LogTextFault(firstLine + 1, LogText.Quoted(lines[1]), LogText.AcceptedNumber));
        }

        if (!TreeHash.TryParse(lines[2], out var root))
        {
            found.Add(new LogTextFault(firstLine + 2, LogText.Quoted(lines[2]), TreeHash.AcceptedForm));
        }

        faults = found.ToImmutable();
        checkpoint = faults.IsEmpty ? new Checkpoint(lines[0], size, root) : null;
        return checkpoint is not null;
    }
}
