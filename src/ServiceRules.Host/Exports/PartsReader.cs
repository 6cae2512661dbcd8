using ServiceRules.Application.Exporting;

namespace ServiceRules.Host.Exports;

/// <summary>A file that is kept in parts, read one after the other.</summary>
/// <param name="store">Where.</param>
/// <param name="id">Which export.</param>
internal sealed class PartsReader(IExportStore store, string id) : Stream
{
    private ReadOnlyMemory<byte> part;
    private int number;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override int Read(Span<byte> buffer)
    {
        if (part.IsEmpty)
        {
            if (store.Part(id, number) is not { } next)
            {
                return 0;
            }

            number++;
            part = next;
        }

        var taken = Math.Min(buffer.Length, part.Length);
        part.Span[..taken].CopyTo(buffer);
        part = part[taken..];
        return taken;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override ValueTask<int> ReadAsync(
        Memory<byte> buffer,
        CancellationToken cancellationToken = default
    )
    {
        cancellationToken.ThrowIfCancellationRequested();
        return ValueTask.FromResult(Read(buffer.Span));
    }

    public override Task<int> ReadAsync(
        byte[] buffer,
        int offset,
        int count,
        CancellationToken cancellationToken
    ) => ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override void Flush() { }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
