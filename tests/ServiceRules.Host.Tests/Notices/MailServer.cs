using System.Buffers;
using System.Net;
using System.Threading.Channels;
using MimeKit;
using ServiceRules.TestKit;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace ServiceRules.Host.Tests.Notices;

/// <summary>A mail server on a free port that keeps what it is given.</summary>
internal sealed class MailServer : MessageStore, IAsyncDisposable
{
    private readonly Channel<MimeMessage> _mails = Channel.CreateUnbounded<MimeMessage>();
    private readonly CancellationTokenSource _end = new();
    private Task _running = Task.CompletedTask;
    private int _count;

    public int Port { get; private set; }

    public int Count => _count;

    public static async Task<MailServer> StartAsync()
    {
        var server = new MailServer { Port = FreePort.Find() };
        var options = new SmtpServerOptionsBuilder()
            .ServerName("mail.example")
            .Endpoint(endpoint => endpoint.Endpoint(new IPEndPoint(IPAddress.Loopback, server.Port)))
            .Build();
        var parts = new ServiceProvider();
        parts.Add(server);
        server._running = new SmtpServer.SmtpServer(options, parts).StartAsync(server._end.Token);
        await Task.Yield();
        return server;
    }

    public async Task<MimeMessage> NextAsync()
    {
        using var enough = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        return await _mails.Reader.ReadAsync(enough.Token);
    }

    public override async Task<SmtpResponse> SaveAsync(
        ISessionContext context,
        IMessageTransaction transaction,
        ReadOnlySequence<byte> buffer,
        CancellationToken cancellationToken
    )
    {
        using var bytes = new MemoryStream(buffer.ToArray());
        var message = await MimeMessage.LoadAsync(bytes, cancellationToken);
        _ = Interlocked.Increment(ref _count);
        await _mails.Writer.WriteAsync(message, cancellationToken);
        return SmtpResponse.Ok;
    }

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        try
        {
            await _running;
        }
        catch (OperationCanceledException)
        {
            // That is how it ends.
        }

        _end.Dispose();
    }
}
