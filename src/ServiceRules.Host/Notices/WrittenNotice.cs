using System.Text.Json.Serialization;

namespace ServiceRules.Host.Notices;

/// <summary>A notice as it is sent, the same at each attempt.</summary>
/// <param name="Format">Which document it is.</param>
/// <param name="Id">Names it among all notices of all services: whoever has seen it before does nothing.</param>
/// <param name="Link">Where more is to be seen.</param>
internal abstract record WrittenNotice(string Format, string Id, Uri Link)
{
    /// <summary>When what it tells came about.</summary>
    [JsonIgnore]
    public abstract DateTimeOffset At { get; }

    /// <summary>What stands over a mail.</summary>
    [JsonIgnore]
    public abstract string Subject { get; }

    /// <summary>What stands in a mail.</summary>
    [JsonIgnore]
    public abstract string Text { get; }

    public abstract byte[] ToJson();

    protected static Uri Beneath(Uri service, string path) =>
        new($"{service.AbsoluteUri.TrimEnd('/')}/{path}");
}
