using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;

namespace ServiceRules.Crash.Tests;

/// <summary>A bench that submits, corrects and fetches reports, one after the other, until it is told to stop.</summary>
internal sealed class Sender(Promises promises, Func<int> nextNumber, Random random)
{
    private const int CorrectedOneIn = 4;
    private const int ReportedOneIn = 3;

    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);

    /// <param name="client">Whom to ask now: another one where the last gave no answer.</param>
    /// <param name="stop">When to end.</param>
    public async Task SendAsync(Func<HttpClient> client, CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            var number = promises.Unanswered.TryDequeue(out var again) ? again : nextNumber();
            try
            {
                await SendAsync(client(), number, stop);
            }
            catch (Exception failure) when (failure is HttpRequestException or OperationCanceledException)
            {
                promises.Unanswered.Enqueue(number);
                await Task.Delay(Pause, CancellationToken.None);
            }
        }
    }

    private async Task SendAsync(HttpClient client, int number, CancellationToken stop)
    {
        var id = Job.IdOf(number);
        if (!await PostAsync(client, number, "api/records", Job.Of(number), stop))
        {
            return;
        }

        if (random.Next(CorrectedOneIn) == 0)
        {
            _ = await PostAsync(
                client,
                number,
                $"api/records/{id}/amendments?by=lead-01&reason=read%20wrong",
                Job.Corrected(number),
                stop
            );
        }

        if (random.Next(ReportedOneIn) == 0)
        {
            await FetchAsync(client, number, stop);
        }
    }

    private async Task<bool> PostAsync(
        HttpClient client,
        int number,
        string path,
        byte[] body,
        CancellationToken stop
    )
    {
        using var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        using var answer = await client.PostAsync(new Uri(path, UriKind.Relative), content, stop);
        var told = await answer.Content.ReadAsByteArrayAsync(stop);
        switch (answer.StatusCode)
        {
            case HttpStatusCode.Created or HttpStatusCode.OK:
                using (var document = JsonDocument.Parse(told))
                {
                    var record = document.RootElement.GetProperty("record");
                    promises.Versions.Add(
                        new KeptVersion(
                            Job.IdOf(number),
                            record.GetProperty("index").GetInt64(),
                            record.GetProperty("content").GetString()!
                        )
                    );
                }

                return true;
            default:
                Note(answer.StatusCode, number, path);
                return false;
        }
    }

    private async Task FetchAsync(HttpClient client, int number, CancellationToken stop)
    {
        using var answer = await client.GetAsync(
            new Uri($"api/records/{Job.IdOf(number)}/report", UriKind.Relative),
            stop
        );
        if (answer.StatusCode == HttpStatusCode.OK)
        {
            promises.Reports.Add(
                new IssuedReport(Job.IdOf(number), await answer.Content.ReadAsByteArrayAsync(stop))
            );
        }
        else
        {
            Note(answer.StatusCode, number, "report");
        }
    }

    private void Note(HttpStatusCode status, int number, string path)
    {
        if (
            status
            is HttpStatusCode.ServiceUnavailable
                or HttpStatusCode.InsufficientStorage
                or HttpStatusCode.TooManyRequests
        )
        {
            promises.PutOff.Add((int)status);
            promises.Unanswered.Enqueue(number);
        }
        else
        {
            promises.Faults.Add($"{(int)status} for {Job.IdOf(number)}, {path}");
        }
    }
}
