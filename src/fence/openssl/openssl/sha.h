#error "only src/store may include OpenSSL"
