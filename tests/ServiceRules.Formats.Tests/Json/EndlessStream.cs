namespace ServiceRules.Formats.Tests.Json;

/// <summary>A stream of one long text that counts what was taken from it.</summary>
internal sealed class EndlessStream(long size) : Stream
{
    public long Given { get; private set; }

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override int Read(byte[] buffer, int offset, int count)
    {
        int given = (int)Math.Min(count, size - Given);
        buffer.AsSpan(offset, given).Fill((byte)'[');
        Given += given;
        return given;
    }

    public override void Flush() { }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
