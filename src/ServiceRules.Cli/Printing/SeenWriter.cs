using System.Text;

namespace ServiceRules.Cli.Printing;

/// <summary>Passes on to another writer what a terminal may show; what is written as a line stays one.</summary>
internal sealed class SeenWriter(TextWriter inner) : TextWriter(inner.FormatProvider)
{
    public override Encoding Encoding => inner.Encoding;

    public override void Write(char value) => inner.Write(SeenText.Of(value.ToString()));

    public override void Write(char[] buffer, int index, int count) =>
        Write(new string(buffer, index, count));

    public override void Write(ReadOnlySpan<char> buffer) => Write(buffer.ToString());

    public override void Write(string? value) => inner.Write(value is null ? null : SeenText.Of(value));

    public override void WriteLine() => inner.WriteLine();

    public override void WriteLine(string? value)
    {
        inner.Write(value is null ? null : SeenText.OneLine(value));
        inner.WriteLine();
    }

    public override void Flush() => inner.Flush();
}
