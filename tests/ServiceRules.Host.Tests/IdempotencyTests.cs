using System.Net;

namespace ServiceRules.Host.Tests;

public sealed class IdempotencyTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    private static byte[] Record(string id, params (string, string)[] changes) =>
        ServiceRun.Record("height-check", [("F-height-check", id), .. changes]);

    private Task<HttpResponseMessage> SendAsync(byte[] body, string? key, string path = "api/records") =>
        _run.PostAsync(
            path,
            body,
            request =>
            {
                if (key is not null)
                {
                    Assert.True(request.Headers.TryAddWithoutValidation("Idempotency-Key", key));
                }
            }
        );

    [Fact]
    public async Task Submit_SameKeySameBody_AnswersAsTheFirstTimeWhateverWasFiledSince()
    {
        using var first = await SendAsync(Record("J-1"), "\"key-1\"");
        using var amended = await SendAsync(
            Record("J-1", ("3.82 mm", "3.84 mm")),
            null,
            "api/records/J-1/amendments?by=lead-01&reason=x"
        );
        using var again = await SendAsync(Record("J-1"), "\"key-1\"");

        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal(HttpStatusCode.Created, amended.StatusCode);
        Assert.Equal(HttpStatusCode.Created, again.StatusCode);
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task Submit_SameKeyOtherBody_IsRefusedAndNothingIsFiled()
    {
        using var first = await SendAsync(Record("J-2"), "\"key-2\"");
        using var other = await SendAsync(Record("J-2b"), "\"key-2\"");

        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal(422, (int)other.StatusCode);
        Assert.EndsWith(
            "key-reused",
            (await ServiceRun.JsonAsync(other)).GetProperty("type").GetString(),
            StringComparison.Ordinal
        );
        using var absent = await _run.GetAsync("api/records/J-2b");
        Assert.Equal(HttpStatusCode.NotFound, absent.StatusCode);
    }

    [Fact]
    public async Task Submit_RefusedBody_LeavesItsKeyFree()
    {
        using var refused = await SendAsync("{}"u8.ToArray(), "\"key-3\"");
        using var mended = await SendAsync(Record("J-3"), "\"key-3\"");

        Assert.Equal(422, (int)refused.StatusCode);
        Assert.Equal(HttpStatusCode.Created, mended.StatusCode);
    }

    [Fact]
    public async Task Submit_SameKeyAtOnce_IsFiledOnceAndTheOthersAreAskedToWaitOrAnsweredAlike()
    {
        var answers = await Task.WhenAll(
            Enumerable.Range(0, 20).Select(_ => SendAsync(Record("J-4"), "\"key-4\""))
        );

        Assert.All(answers, answer => Assert.Contains((int)answer.StatusCode, new[] { 201, 409 }));
        Assert.Contains(answers, answer => answer.StatusCode == HttpStatusCode.Created);
        Assert.Equal(
            1,
            (await _run.GetJsonAsync("api/records/J-4")).GetProperty("versions").GetArrayLength()
        );
    }

    [Theory]
    [InlineData("key")]
    [InlineData("\"\"")]
    [InlineData("\"key")]
    [InlineData("\"a\"; b=1")]
    [InlineData("\"a\\b\"")]
    public async Task Submit_KeyThatIsNoText_IsRefused(string key)
    {
        using var answer = await SendAsync(Record("J-5"), key);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        using var absent = await _run.GetAsync("api/records/J-5");
        Assert.Equal(HttpStatusCode.NotFound, absent.StatusCode);
    }

    [Theory]
    [InlineData(255, 201)]
    [InlineData(256, 400)]
    public async Task Submit_LongKey_IsTakenUpToTheBound(int length, int status)
    {
        using var answer = await SendAsync(
            Record("J-6" + length.ToString(System.Globalization.CultureInfo.InvariantCulture)),
            $"\"{new string('k', length)}\""
        );

        Assert.Equal(status, (int)answer.StatusCode);
    }

    [Fact]
    public async Task Submit_KeyWithEscapes_IsTheSameHoweverItIsPadded()
    {
        using var first = await SendAsync(Record("J-7"), "\"a\\\"b\\\\c\"");
        using var again = await SendAsync(Record("J-7b"), "\"a\\\"b\\\\c\"  ");

        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal(422, (int)again.StatusCode);
    }
}
