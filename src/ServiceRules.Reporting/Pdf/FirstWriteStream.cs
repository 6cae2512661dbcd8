namespace ServiceRules.Reporting.Pdf;

/// <summary>
/// Memory that does something before the first byte is written to it. The library adds the signature and its field while
/// it saves and offers no later moment to change them: when the first byte comes, all is added and nothing is written.
/// </summary>
internal sealed class FirstWriteStream(Action before) : MemoryStream
{
    private Action? _before = before;

    public override void Write(byte[] buffer, int offset, int count)
    {
        Begin();
        base.Write(buffer, offset, count);
    }

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        Begin();
        base.Write(buffer);
    }

    public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken)
    {
        Begin();
        return base.WriteAsync(buffer, offset, count, cancellationToken);
    }

    public override ValueTask WriteAsync(
        ReadOnlyMemory<byte> buffer,
        CancellationToken cancellationToken = default
    )
    {
        Begin();
        return base.WriteAsync(buffer, cancellationToken);
    }

    public override void WriteByte(byte value)
    {
        Begin();
        base.WriteByte(value);
    }

    private void Begin() => Interlocked.Exchange(ref _before, null)?.Invoke();
}
