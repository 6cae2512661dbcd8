using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;

namespace ServiceRules.Crash.Tests;

/// <summary>Many devices send the same at the same moment.</summary>
public sealed class SameAtOnceTests
{
    private const int AtOnce = 50;

    [Fact]
    public async Task Submit_TheSameFiftyTimesAtOnce_StandsOnce()
    {
        using var folder = new DataFolder();
        using var service = await ServedProgram.StartAsync(folder.Data);
        using var client = await service.ClientAsync(folder.NewKey());

        var answers = await Task.WhenAll(Enumerable.Range(0, AtOnce).Select(_ => SubmitAsync(client)));

        Assert.Equal(1, answers.Count(answer => answer.Status == HttpStatusCode.Created));
        Assert.Equal(AtOnce - 1, answers.Count(answer => answer.Status == HttpStatusCode.OK));
        Assert.Single(answers.Select(answer => answer.Entry).Distinct());
        Assert.Equal(1, await KeptPromises.AssertVersionsAsync(client, new Promises(), "at once"));
    }

    private static async Task<(HttpStatusCode Status, long Entry)> SubmitAsync(HttpClient client)
    {
        using var content = new ByteArrayContent(Job.Of(1));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        using var answer = await client.PostAsync(new Uri("api/records", UriKind.Relative), content);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, $"{(int)answer.StatusCode}: {text}");
        using var told = JsonDocument.Parse(text);
        return (answer.StatusCode, told.RootElement.GetProperty("record").GetProperty("index").GetInt64());
    }
}
