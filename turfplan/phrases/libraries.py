"""Messages of `messages/en/libraries.po`, made from it by `turfplan.messages.building`."""

from turfplan.message import Message


def at(*, what: Message, line: str, column: str) -> Message:
    """{what} (at line {line}, column {column})"""
    return Message("libraries.at", (("what", what), ("line", line), ("column", column)))


def at_end(*, what: Message) -> Message:
    """{what} (at end of document)"""
    return Message("libraries.at_end", (("what", what),))


def json_at(*, what: Message, line: str, column: str, place: str) -> Message:
    """{what}: line {line} column {column} (char {place})"""
    return Message(
        "libraries.json_at", (("what", what), ("line", line), ("column", column), ("place", place))
    )


def input_is_too_short() -> Message:
    """input is too short"""
    return Message("libraries.input_is_too_short")


def unexpected_extra_characters_at_the_end_of_the_input() -> Message:
    """unexpected extra characters at the end of the input"""
    return Message("libraries.unexpected_extra_characters_at_the_end_of_the_input")


def invalid_datetime_separator_expected_t_t___or_space() -> Message:
    """invalid datetime separator, expected `T`, `t`, `_` or space"""
    return Message("libraries.invalid_datetime_separator_expected_t_t___or_space")


def invalid_date_separator_expected() -> Message:
    """invalid date separator, expected `-`"""
    return Message("libraries.invalid_date_separator_expected")


def invalid_character_in_year() -> Message:
    """invalid character in year"""
    return Message("libraries.invalid_character_in_year")


def invalid_character_in_month() -> Message:
    """invalid character in month"""
    return Message("libraries.invalid_character_in_month")


def invalid_character_in_day() -> Message:
    """invalid character in day"""
    return Message("libraries.invalid_character_in_day")


def invalid_time_separator_expected() -> Message:
    """invalid time separator, expected `:`"""
    return Message("libraries.invalid_time_separator_expected")


def invalid_character_in_hour() -> Message:
    """invalid character in hour"""
    return Message("libraries.invalid_character_in_hour")


def invalid_character_in_minute() -> Message:
    """invalid character in minute"""
    return Message("libraries.invalid_character_in_minute")


def invalid_character_in_second() -> Message:
    """invalid character in second"""
    return Message("libraries.invalid_character_in_second")


def month_value_is_outside_expected_range_of_1_12() -> Message:
    """month value is outside expected range of 1-12"""
    return Message("libraries.month_value_is_outside_expected_range_of_1_12")


def day_value_is_outside_expected_range() -> Message:
    """day value is outside expected range"""
    return Message("libraries.day_value_is_outside_expected_range")


def hour_value_is_outside_expected_range_of_0_23() -> Message:
    """hour value is outside expected range of 0-23"""
    return Message("libraries.hour_value_is_outside_expected_range_of_0_23")


def minute_value_is_outside_expected_range_of_0_59() -> Message:
    """minute value is outside expected range of 0-59"""
    return Message("libraries.minute_value_is_outside_expected_range_of_0_59")


def second_value_is_outside_expected_range_of_0_59() -> Message:
    """second value is outside expected range of 0-59"""
    return Message("libraries.second_value_is_outside_expected_range_of_0_59")


def invalid_statement() -> Message:
    """Invalid statement"""
    return Message("libraries.invalid_statement")


def expected_newline_or_end_of_document_after_a_statement() -> Message:
    """Expected newline or end of document after a statement"""
    return Message("libraries.expected_newline_or_end_of_document_after_a_statement")


def cannot_overwrite_a_value() -> Message:
    """Cannot overwrite a value"""
    return Message("libraries.cannot_overwrite_a_value")


def expected_at_the_end_of_a_table_declaration() -> Message:
    """Expected ']' at the end of a table declaration"""
    return Message("libraries.expected_at_the_end_of_a_table_declaration")


def expected_at_the_end_of_an_array_declaration() -> Message:
    """Expected ']]' at the end of an array declaration"""
    return Message("libraries.expected_at_the_end_of_an_array_declaration")


def expected_after_a_key_in_a_key_value_pair() -> Message:
    """Expected '=' after a key in a key/value pair"""
    return Message("libraries.expected_after_a_key_in_a_key_value_pair")


def invalid_initial_character_for_a_key_part() -> Message:
    """Invalid initial character for a key part"""
    return Message("libraries.invalid_initial_character_for_a_key_part")


def unclosed_array() -> Message:
    """Unclosed array"""
    return Message("libraries.unclosed_array")


def unclosed_inline_table() -> Message:
    """Unclosed inline table"""
    return Message("libraries.unclosed_inline_table")


def unescaped_in_a_string() -> Message:
    """Unescaped '\\' in a string"""
    return Message("libraries.unescaped_in_a_string")


def invalid_hex_value() -> Message:
    """Invalid hex value"""
    return Message("libraries.invalid_hex_value")


def escaped_character_is_not_a_unicode_scalar_value() -> Message:
    """Escaped character is not a Unicode scalar value"""
    return Message("libraries.escaped_character_is_not_a_unicode_scalar_value")


def unterminated_string() -> Message:
    """Unterminated string"""
    return Message("libraries.unterminated_string")


def invalid_date_or_datetime() -> Message:
    """Invalid date or datetime"""
    return Message("libraries.invalid_date_or_datetime")


def invalid_value() -> Message:
    """Invalid value"""
    return Message("libraries.invalid_value")


def expecting_value() -> Message:
    """Expecting value"""
    return Message("libraries.expecting_value")


def extra_data() -> Message:
    """Extra data"""
    return Message("libraries.extra_data")


def unterminated_string_starting_at() -> Message:
    """Unterminated string starting at"""
    return Message("libraries.unterminated_string_starting_at")


def expecting_property_name_enclosed_in_double_quotes() -> Message:
    """Expecting property name enclosed in double quotes"""
    return Message("libraries.expecting_property_name_enclosed_in_double_quotes")


def file_is_not_a_database() -> Message:
    """file is not a database"""
    return Message("libraries.file_is_not_a_database")


def database_disk_image_is_malformed() -> Message:
    """database disk image is malformed"""
    return Message("libraries.database_disk_image_is_malformed")


def database_is_locked() -> Message:
    """database is locked"""
    return Message("libraries.database_is_locked")


def unable_to_open_database_file() -> Message:
    """unable to open database file"""
    return Message("libraries.unable_to_open_database_file")


def disk_i_o_error() -> Message:
    """disk I/O error"""
    return Message("libraries.disk_i_o_error")


def attempt_to_write_a_readonly_database() -> Message:
    """attempt to write a readonly database"""
    return Message("libraries.attempt_to_write_a_readonly_database")


def database_or_disk_is_full() -> Message:
    """database or disk is full"""
    return Message("libraries.database_or_disk_is_full")


def unexpected_end_of_data() -> Message:
    """unexpected end of data"""
    return Message("libraries.unexpected_end_of_data")


def compressed_file_ended_before_the_end_of_stream_marker_was_reached() -> Message:
    """Compressed file ended before the end-of-stream marker was reached"""
    return Message("libraries.compressed_file_ended_before_the_end_of_stream_marker_was_reached")
