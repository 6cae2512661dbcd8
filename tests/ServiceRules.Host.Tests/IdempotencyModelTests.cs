using System.Net.Http.Headers;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests;

/// <summary>
/// <c>Idempotency-Key</c> as a machine of states: whatever is sent, again or otherwise, by whichever caller, the answers are those of a
/// model that remembers what each caller's keys were answered and which records stand.
/// </summary>
public sealed class IdempotencyModelTests(SharedService shared) : IClassFixture<SharedService>
{
    private const int Most = 12;

    private static int _sequences;

    private readonly ServiceRun _run = shared.Run;

    /// <summary>One request.</summary>
    /// <param name="Caller">Who sends it.</param>
    /// <param name="Key">Its key; -1: none.</param>
    /// <param name="Body">What it holds: two records, the second also with other content, and none at all.</param>
    /// <param name="IsAnsweredFor">Whether it says who answers for it.</param>
    private sealed record Sent(int Caller, int Key, int Body, bool IsAnsweredFor);

    private sealed record Answer(int Status, string Text);

    private static Gen<Sent> Any =>
        from caller in Gen.Choose(0, 1)
        from key in Gen.Choose(-1, 1)
        from body in Gen.Choose(0, 3)
        from isAnsweredFor in Gen.Frequency((3, Gen.Constant(false)), (1, Gen.Constant(true)))
        select new Sent(caller, key, body, isAnsweredFor);

    [Property(MaxTest = 25)]
    public Property Requests_InAnyOrder_AreAnsweredAsTheModelSays() =>
        Prop.ForAll(
            Any.ListOf().Select(all => all.Take(Most).ToList()).ToArbitrary(),
            // Elsewhere than where tests wait for their turn, which would wait for itself.
            sequence => Task.Run(() => RunAsync(sequence)).GetAwaiter().GetResult()
        );

    private async Task<bool> RunAsync(List<Sent> sequence)
    {
        var number = Interlocked.Increment(ref _sequences);
        using var first = _run.ClientWith(_run.NewKey(Roles.Lead));
        using var second = _run.ClientWith(_run.NewKey(Roles.Lead));
        HttpClient[] callers = [first, second];
        var day = new DateOnly(2026, 4, 13).AddDays(number).ToString("yyyy-MM-dd", null);
        byte[][] bodies =
        [
            Record($"J-{number}-a", day, "3.82 mm"),
            Record($"J-{number}-b", day, "3.82 mm"),
            Record($"J-{number}-b", day, "3.84 mm"),
            "{}"u8.ToArray(),
        ];
        var answered = new Dictionary<(int Caller, int Key), (Sent Sent, Answer Answer)>();
        var standing = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var sent in sequence)
        {
            var answer = await SendAsync(callers[sent.Caller], sent, bodies[sent.Body], number);
            var id = sent.Body is 0 ? $"J-{number}-a" : $"J-{number}-b";
            if (sent.Body == 3)
            {
                // Whatever is refused as it stands uses up no key, and may be refused for the key first.
                Assert.Equal(422, answer.Status);
            }
            else if (sent.Key >= 0 && answered.TryGetValue((sent.Caller, sent.Key), out var before))
            {
                if (before.Sent.Body == sent.Body && before.Sent.IsAnsweredFor == sent.IsAnsweredFor)
                {
                    Assert.Equal(before.Answer, answer);
                }
                else
                {
                    Assert.Equal(422, answer.Status);
                    Assert.Contains("key-reused", answer.Text, StringComparison.Ordinal);
                }
            }
            else if (standing.TryGetValue(id, out var content) && content != sent.Body)
            {
                Assert.Equal(409, answer.Status);
            }
            else
            {
                Assert.Equal(standing.ContainsKey(id) ? 200 : 201, answer.Status);
                standing[id] = sent.Body;
                if (sent.Key >= 0)
                {
                    answered[(sent.Caller, sent.Key)] = (sent, answer);
                }
            }
        }

        foreach (var id in new[] { $"J-{number}-a", $"J-{number}-b" })
        {
            using var read = await _run.GetAsync($"api/records/{id}");
            Assert.Equal(standing.ContainsKey(id) ? 200 : 404, (int)read.StatusCode);
            if (standing.ContainsKey(id))
            {
                Assert.Equal(1, (await ServiceRun.JsonAsync(read)).GetProperty("versions").GetArrayLength());
            }
        }

        return true;
    }

    private static byte[] Record(string id, string day, string height) =>
        ServiceRun.Record("height-check", ("F-height-check", id), ("2026-04-13", day), ("3.82 mm", height));

    private static async Task<Answer> SendAsync(HttpClient client, Sent sent, byte[] body, int number)
    {
        using var request = new HttpRequestMessage(
            HttpMethod.Post,
            "api/records" + (sent.IsAnsweredFor ? "?by=lead-01" : "")
        )
        {
            Content = new ByteArrayContent(body),
        };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        if (sent.Key >= 0)
        {
            request.Headers.Add("Idempotency-Key", $"\"{number}-{sent.Key}\"");
        }

        using var answer = await client.SendAsync(request);
        return new((int)answer.StatusCode, await answer.Content.ReadAsStringAsync());
    }
}
