using System.Globalization;
using System.Net;

namespace ServiceRules.Host.Tests;

public sealed class AmendmentConditionTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    private static byte[] Record(string id, string height = "3.82 mm") =>
        ServiceRun.Record("height-check", [("F-height-check", id), ("3.82 mm", height)]);

    private async Task<string> FiledAsync(string id)
    {
        using var filed = await _run.PostAsync("api/records", Record(id));
        Assert.Equal(HttpStatusCode.Created, filed.StatusCode);
        return await TagAsync(id);
    }

    private async Task<string> TagAsync(string id)
    {
        using var read = await _run.GetAsync($"api/records/{id}");
        return read.Headers.ETag!.ToString();
    }

    private async Task<(int Status, string Body)> AmendAsync(
        string id,
        string height,
        string? tag,
        string? key = null,
        string reason = "read%20wrong"
    )
    {
        using var answer = await _run.PostAsync(
            $"api/records/{id}/amendments?by=lead-01&reason={reason}",
            Record(id, height),
            request =>
            {
                if (tag is not null)
                {
                    Assert.True(request.Headers.TryAddWithoutValidation("If-Match", tag));
                }

                if (key is not null)
                {
                    Assert.True(request.Headers.TryAddWithoutValidation("Idempotency-Key", key));
                }
            }
        );
        return ((int)answer.StatusCode, await answer.Content.ReadAsStringAsync());
    }

    private async Task<int> VersionsAsync(string id) =>
        (await _run.GetJsonAsync($"api/records/{id}")).GetProperty("versions").GetArrayLength();

    [Fact]
    public async Task Amend_AtOnceFromTheSame_OneIsTakenAndTheOthersAreTold()
    {
        var tag = await FiledAsync("C-1");

        var answers = await Task.WhenAll(
            Enumerable
                .Range(0, 20)
                .Select(one =>
                    AmendAsync(
                        "C-1",
                        $"3.{(83 + (one % 10)).ToString(CultureInfo.InvariantCulture)}{one / 10} mm",
                        tag
                    )
                )
        );

        Assert.Equal(1, answers.Count(answer => answer.Status == 201));
        Assert.Equal(19, answers.Count(answer => answer.Status == 412));
        Assert.Equal(2, await VersionsAsync("C-1"));
        Assert.Contains(
            "#problem-changed",
            answers.First(answer => answer.Status == 412).Body,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Amend_AtOnceToTheSameForOtherReasons_OneIsTakenAndTheOthersAreTold()
    {
        var tag = await FiledAsync("C-6");

        var answers = await Task.WhenAll(
            Enumerable
                .Range(0, 6)
                .Select(one => AmendAsync("C-6", "3.84 mm", tag, reason: $"reading%20{(char)('a' + one)}"))
        );

        Assert.Equal(1, answers.Count(answer => answer.Status == 201));
        Assert.Equal(5, answers.Count(answer => answer.Status == 412));
        // Who knows what stands is told that it stands so already.
        Assert.Equal(
            409,
            (await AmendAsync("C-6", "3.84 mm", await TagAsync("C-6"), reason: "reading%20z")).Status
        );
    }

    [Fact]
    public async Task Amend_UnderTheTagOfToday_IsTakenAndUnderTheOneBeforeIsNot()
    {
        var first = await FiledAsync("C-2");

        Assert.Equal(201, (await AmendAsync("C-2", "3.84 mm", first)).Status);
        Assert.Equal(412, (await AmendAsync("C-2", "3.85 mm", first)).Status);
        Assert.Equal(201, (await AmendAsync("C-2", "3.85 mm", $"\"other\", {await TagAsync("C-2")}")).Status);
        Assert.Equal(3, await VersionsAsync("C-2"));
    }

    [Theory]
    [InlineData("\"nonsense\"", 412)]
    [InlineData("*", 201)]
    [InlineData("nonsense", 400)]
    [InlineData(null, 201)]
    public async Task Amend_UnderATag_IsTakenWhereItFits(string? tag, int status)
    {
        var id = "C-3-" + status.ToString(CultureInfo.InvariantCulture) + (tag is null ? "n" : "t");
        _ = await FiledAsync(id);

        Assert.Equal(status, (await AmendAsync(id, "3.84 mm", tag)).Status);
    }

    [Fact]
    public async Task Amend_UnderAWeakTag_IsNotTaken()
    {
        var tag = await FiledAsync("C-4");

        Assert.Equal(412, (await AmendAsync("C-4", "3.84 mm", "W/" + tag)).Status);
    }

    [Fact]
    public async Task Amend_OfARecordThatIsNotThere_IsNotFoundWhateverTheTag()
    {
        Assert.Equal(404, (await AmendAsync("C-none", "3.84 mm", "\"any\"")).Status);
    }

    [Fact]
    public async Task Amend_AgainWithItsKey_GetsTheFirstAnswerThoughTheTagFitsNoMore()
    {
        var tag = await FiledAsync("C-5");

        var first = await AmendAsync("C-5", "3.84 mm", tag, "\"c-5\"");
        var again = await AmendAsync("C-5", "3.84 mm", tag, "\"c-5\"");

        Assert.Equal(201, first.Status);
        Assert.Equal(first, again);
    }
}
