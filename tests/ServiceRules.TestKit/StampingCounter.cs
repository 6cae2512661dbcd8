using System.Globalization;
using System.Net;

namespace ServiceRules.TestKit;

/// <summary>Answers questions over HTTP on this machine, each by the function given.</summary>
public sealed class StampingCounter : IDisposable
{
    private const int MostTries = 20;

    private readonly HttpListener _listener;
    private readonly Func<byte[], HttpListenerResponse, Task> _answer;
    private readonly Task _work;

    public StampingCounter(Func<byte[], HttpListenerResponse, Task> answer)
    {
        _answer = answer;
        (_listener, Address) = Listening();
        _work = Task.Run(WorkAsync);
    }

    public string Address { get; }

    public string? ContentType { get; private set; }

    /// <summary>Answers with bytes, as an authority does.</summary>
    public static StampingCounter Of(Func<byte[], byte[]> answer) =>
        new(
            async (query, response) =>
            {
                response.ContentType = "application/timestamp-reply";
                await response.OutputStream.WriteAsync(answer(query));
            }
        );

    public void Dispose()
    {
        _listener.Close();
        _work.GetAwaiter().GetResult();
    }

    private async Task WorkAsync()
    {
        while (true)
        {
            try
            {
                var context = await _listener.GetContextAsync();
                ContentType = context.Request.ContentType;
                using var query = new MemoryStream();
                await context.Request.InputStream.CopyToAsync(query);
                await _answer(query.ToArray(), context.Response);
                context.Response.Close();
            }
            catch (Exception problem)
                when (problem is HttpListenerException or ObjectDisposedException or IOException
                    || !_listener.IsListening
                )
            {
                if (!_listener.IsListening)
                {
                    return;
                }
            }
        }
    }

    // Between looking for a free port and listening on it, another test may take it.
    private static (HttpListener Listener, string Address) Listening()
    {
        for (var attempt = 1; ; attempt++)
        {
            var address = string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{FreePort.Find()}/");
            var listener = new HttpListener();
            listener.Prefixes.Add(address);
            try
            {
                listener.Start();
                return (listener, address);
            }
            catch (HttpListenerException) when (attempt < MostTries)
            {
                listener.Close();
            }
        }
    }
}
