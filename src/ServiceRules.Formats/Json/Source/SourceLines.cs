namespace ServiceRules.Formats.Json.Source;

/// <summary>Turns byte offsets of a UTF-8 text into lines and columns. Lines end with LF, alone or after CR.</summary>
internal sealed class SourceLines
{
    private readonly ReadOnlyMemory<byte> bytes;
    private readonly List<int> starts;

    public SourceLines(ReadOnlyMemory<byte> bytes)
    {
        this.bytes = bytes;
        starts = [0];
        ReadOnlySpan<byte> span = bytes.Span;
        int at = 0;
        while (span[at..].IndexOf((byte)'\n') is >= 0 and int step)
        {
            at += step + 1;
            starts.Add(at);
        }
    }

    public int OffsetOf(long line, long byteInLine)
    {
        int start = starts[(int)Math.Clamp(line, 0, starts.Count - 1)];
        return (int)Math.Clamp(start + byteInLine, 0, bytes.Length);
    }

    public SourcePosition At(int offset)
    {
        int found = starts.BinarySearch(offset);
        int line = found >= 0 ? found : ~found - 1;
        int start = starts[line];
        int characters = 0;
        foreach (byte unit in bytes.Span[start..Math.Min(offset, bytes.Length)])
        {
            // Bytes 10xxxxxx continue a character and do not begin one.
            characters += (unit & 0xC0) == 0x80 ? 0 : 1;
        }

        return new(line + 1, characters + 1);
    }
}
